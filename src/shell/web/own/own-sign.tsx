import { Select } from "@mantine/core";
import { useState } from "react";
import type { Desk } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/** Anything noticed, by whoever noticed it. */
export function OwnSign(props: { readonly desk: Desk; readonly write: Write; readonly asks: boolean }) {
  const { desk, write, asks } = props;
  const [id, setId] = useState<string | null>(null);
  const [witness, setWitness] = useState<string | null>("seen");
  const words = text.own;
  const sign = desk.signs.find((one) => one.id === id);
  return (
    <div className="form">
      <Select
        size="lg"
        label={words.sign}
        searchable
        data={desk.signs.map(({ id: value, ask }) => ({ value, label: ask }))}
        value={id}
        onChange={setId}
      />
      <Select
        size="lg"
        label={words.witness}
        data={Object.entries(words.witnesses).map(([value, label]) => ({ value, label }))}
        value={witness}
        onChange={setWitness}
        allowDeselect={false}
      />
      {sign !== undefined && (
        <div className="keys">
          {(asks ? [text.practice.findOut] : sign.answers).map((answer) => (
            <button
              key={answer}
              type="button"
              className="big-key"
              onClick={async () => {
                if (await write({ kind: witness ?? "seen", body: { [sign.id]: answer } })) setId(null);
              }}
            >
              {answer}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
