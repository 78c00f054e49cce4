import { Radio } from "@mantine/core";
import { useState } from "react";
import { closingText } from "../english-closing.ts";
import { Amounts } from "./amounts.tsx";
import type { RoomProps } from "./closing-screen.tsx";
import { Faults } from "./faults.tsx";
import { mendedPart, PartChoice } from "./part-choice.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.proof.contact;
type Key = "drop" | "ohms" | "amperes";

/** What a contact loses under its load, by its drop or by its ohms. */
export function ContactForm({ view, write, held }: RoomProps & { readonly held: boolean }) {
  const [part, setPart] = useState<string | null>(mendedPart(view));
  const [by, setBy] = useState<"drop" | "ohms">("drop");
  const [typed, setTyped] = useState<Readonly<Partial<Record<Key, string>>>>({});
  const { put, faults } = useCheckedWrite(write);
  const keys = [by, "amperes"] as const;
  const record = async () => {
    const told = Object.fromEntries(keys.map((key) => [key, typed[key]]));
    if (await put({ kind: "loaded", body: { on: part, ...told } })) setTyped({});
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        record();
      }}
    >
      <PartChoice parts={view.parts} value={part} onChange={setPart} />
      <Radio.Group label={words.by} size="lg" value={by} onChange={(value) => setBy(value as typeof by)}>
        <div className="choices">
          {(["drop", "ohms"] as const).map((one) => (
            <Radio key={one} size="lg" value={one} label={words.ways[one]} />
          ))}
        </div>
      </Radio.Group>
      <Amounts labels={words} keys={keys} typed={typed} onType={setTyped} />
      <Faults faults={faults} />
      <button
        type="submit"
        className="big-key"
        disabled={part === null || (held && by === "drop") || keys.some((key) => (typed[key] ?? "").trim() === "")}
      >
        {words.write}
      </button>
    </form>
  );
}
