import { Button, Radio, TextInput } from "@mantine/core";
import { type FormEvent, useEffect, useState } from "react";
import { Link, useLocation } from "wouter";
import { askEngine } from "../engine/client.ts";
import type { Family } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { MachineDrawing } from "../jobs/machine-drawing.tsx";
import { nextNumber } from "../jobs/next-number.ts";
import { useApp } from "../shell/app-state.tsx";

const machines = 10_000;

/** A machine with a hidden fault is chosen, by family and number: the same number is the same machine again. */
export function NewPracticeScreen() {
  const { ledger, db } = useApp();
  const [, go] = useLocation();
  const [families, setFamilies] = useState<readonly Family[]>([]);
  const [sheet, setSheet] = useState("");
  const [beginning, setBeginning] = useState(false);
  const words = text.practice;
  useEffect(() => {
    askEngine({ do: "families" }).then(setFamilies);
  }, []);
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
        <Radio.Group label={text.newJob.machine} value={sheet} onChange={setSheet} size="lg">
          <div className="machines">
            {families.map((family) => (
              <Radio.Card key={family.name} value={family.name} className="machine">
                <MachineDrawing family={family.name} />
                <span>{family.title}</span>
              </Radio.Card>
            ))}
          </div>
        </Radio.Group>
        <TextInput size="lg" name="seed" label={words.seed} autoComplete="off" />
        <Button type="submit" size="lg" className="key" disabled={sheet === "" || beginning}>
          {beginning ? words.drawing : text.newJob.start}
        </Button>
      </form>
    </main>
  );
}
