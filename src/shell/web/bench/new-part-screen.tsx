import { Button, Select, TextInput } from "@mantine/core";
import { type FormEvent, useEffect, useState } from "react";
import { Link, useLocation } from "wouter";
import { askEngine } from "../engine/client.ts";
import type { KindOffer } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { nextNumber } from "../jobs/next-number.ts";
import { useApp } from "../shell/app-state.tsx";

/** A loose part comes to the bench: what it is, and what is printed on it. */
export function NewPartScreen() {
  const { ledger, db } = useApp();
  const [, go] = useLocation();
  const [kinds, setKinds] = useState<readonly KindOffer[]>([]);
  const [id, setId] = useState<string | null>(null);
  const words = text.bench;
  useEffect(() => {
    askEngine({ do: "bench kinds" }).then(setKinds);
  }, []);
  const kind = kinds.find((one) => one.id === id);
  const begin = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (kind === undefined) return;
    const form = new FormData(event.currentTarget);
    const told = kind.ratings.flatMap(({ name }) => {
      const value = String(form.get(name) ?? "").trim();
      return value === "" ? [] : [[name, value] as const];
    });
    const from = String(form.get("from") ?? "").trim();
    const part = { kind: kind.id, ratings: Object.fromEntries(told) };
    const number = await nextNumber(db);
    const job = await ledger.begin({ number, part, complaint: kind.says, ...(from === "" ? {} : { place: from }) });
    go(`/bench/${job}`);
  };
  return (
    <main className="column">
      <p className="way-back">
        <Link href="/">‹ {text.places.jobs}</Link>
      </p>
      <h1>{words.begin}</h1>
      <form className="form" onSubmit={begin} noValidate>
        <Select
          size="lg"
          label={words.kind}
          searchable
          data={kinds.map(({ id: value, says }) => ({ value, label: says }))}
          value={id}
          onChange={setId}
        />
        {kind?.ratings.map(({ name, says, value }) => (
          <TextInput
            key={`${kind.id} ${name}`}
            size="lg"
            name={name}
            label={text.branchJob.rating(says, value)}
            autoComplete="off"
          />
        ))}
        <TextInput size="lg" name="from" label={words.from} autoComplete="off" />
        <Button type="submit" size="lg" className="key" disabled={kind === undefined}>
          {text.newJob.start}
        </Button>
      </form>
    </main>
  );
}
