import { Button, Select, TextInput } from "@mantine/core";
import { useState } from "react";
import type { JobHead } from "../../../core/ledger/index.ts";
import type { Desk } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/** "Mine differs": a part that is not there, another rating, another pin. Kept with the job, and the sheet is drawn anew. */
export function OwnDifference(props: { readonly desk: Desk; readonly head: JobHead; readonly write: Write }) {
  const { desk, head, write } = props;
  const [form, setForm] = useState<string | null>("absent");
  const [part, setPart] = useState<string | null>(null);
  const [what, setWhat] = useState("");
  const words = text.own.differs;
  const differs = head.machine?.differs ?? [];
  const sentence = form === "absent" ? (part === null ? "" : `${part} absent`) : sentenceOf(form, part, what.trim());
  const amend = (to: readonly string[]) =>
    write({ kind: "amends", body: { machine: { ...head.machine, differs: to } } });
  return (
    <div className="form">
      {differs.map((one) => (
        <p key={one}>
          {one}{" "}
          <button type="button" className="small-key" onClick={() => amend(differs.filter((other) => other !== one))}>
            {text.history.undo}
          </button>
        </p>
      ))}
      <Select
        size="lg"
        label={words.how}
        data={Object.entries(words.forms).map(([value, label]) => ({ value, label }))}
        value={form}
        onChange={setForm}
        allowDeselect={false}
      />
      {form !== "pin" && (
        <Select
          size="lg"
          label={text.own.part}
          searchable
          limit={40}
          data={desk.differing.map(({ id, says }) => ({ value: id, label: says }))}
          value={part}
          onChange={setPart}
        />
      )}
      {form !== "absent" && (
        <TextInput
          size="lg"
          label={form === "pin" ? words.pin : words.rating}
          placeholder={form === "pin" ? "X3.2 is X3.4" : ratingHint(desk, part)}
          value={what}
          onChange={(event) => setWhat(event.currentTarget.value)}
        />
      )}
      <Button
        size="lg"
        disabled={sentence === ""}
        onClick={async () => {
          if ((await amend([...differs, sentence])) !== undefined) setWhat("");
        }}
      >
        {words.keep}
      </Button>
    </div>
  );
}

function sentenceOf(form: string | null, part: string | null, what: string): string {
  if (what === "") return "";
  if (form === "pin") return `pin ${what}`;
  return part === null ? "" : `${part}.${what}`;
}

function ratingHint(desk: Desk, part: string | null): string {
  const [rating] = desk.differing.find(({ id }) => id === part)?.ratings ?? [];
  return rating === undefined ? "P is 1800 W" : `${rating} is …`;
}
