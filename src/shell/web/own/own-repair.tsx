import { Select, TextInput } from "@mantine/core";
import { useState } from "react";
import type { Desk } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/** "I changed the pump anyway." */
export function OwnRepair({ desk, write }: { readonly desk: Desk; readonly write: Write }) {
  const [on, setOn] = useState<string | null>(null);
  const [remedy, setRemedy] = useState("");
  const words = text.own;
  const ready = on !== null && remedy.trim() !== "";
  const did = async (worked?: "yes" | "no") => {
    const body = { remedy: remedy.trim(), on, ...(worked === undefined ? {} : { worked }) };
    if (await write({ kind: "did", body })) setRemedy("");
  };
  return (
    <div className="form">
      <Select
        size="lg"
        label={words.part}
        searchable
        limit={40}
        data={desk.parts.map(({ id, says }) => ({ value: id, label: says }))}
        value={on}
        onChange={setOn}
      />
      <TextInput
        size="lg"
        label={words.remedy}
        value={remedy}
        onChange={(event) => setRemedy(event.currentTarget.value)}
      />
      <div className="keys">
        <button type="button" className="big-key" disabled={!ready} onClick={() => did("yes")}>
          {text.step.worked}
        </button>
        <button type="button" className="big-key" disabled={!ready} onClick={() => did("no")}>
          {text.step.didNot}
        </button>
        <button type="button" className="big-key quiet" disabled={!ready} onClick={() => did()}>
          {text.step.untried}
        </button>
      </div>
    </div>
  );
}
