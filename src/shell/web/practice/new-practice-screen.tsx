import { Button, TextInput } from "@mantine/core";
import { type FormEvent, useState } from "react";
import { Link, useLocation } from "wouter";
import { askEngine } from "../engine/client.ts";
import { text } from "../english.ts";
import { FamilyChoice } from "../jobs/family-choice.tsx";
import { nextNumber } from "../jobs/next-number.ts";
import { useApp } from "../shell/app-state.tsx";

const machines = 10_000;

/** A machine with a hidden fault is chosen, by family and number: the same number is the same machine again. */
export function NewPracticeScreen() {
  const { ledger, db } = useApp();
  const [, go] = useLocation();
  const [sheet, setSheet] = useState("");
  const [beginning, setBeginning] = useState(false);
  const words = text.practice;
  const begin = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const typed = String(new FormData(event.currentTarget).get("seed") ?? "").trim();
    const seed = typed === "" ? String(Math.floor(Math.random() * machines)) : typed;
    setBeginning(true);
    const { answers, complaint, events } = await askEngine({ do: "practice begins", sheet, seed });
    const number = await nextNumber(db);
    const head = { number, sheet, practice: { seed }, machine: { answers }, complaint, customer: words.customer(seed) };
    const id = await ledger.begin(head, events);
    go(`/job/${id}/next`);
  };
  return (
    <main className="column">
      <p className="way-back">
        <Link href="/">‹ {text.places.jobs}</Link>
      </p>
      <h1>{words.title}</h1>
      <p>{words.about}</p>
      <form className="form" onSubmit={begin} noValidate>
        <FamilyChoice value={sheet} onChange={setSheet} />
        <TextInput size="lg" name="seed" label={words.seed} autoComplete="off" />
        <Button type="submit" size="lg" className="key" disabled={sheet === "" || beginning}>
          {beginning ? words.drawing : text.newJob.start}
        </Button>
      </form>
    </main>
  );
}
