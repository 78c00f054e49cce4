import { useState } from "react";
import { closingText } from "../english-closing.ts";
import { Amounts, inMinutes } from "./amounts.tsx";
import type { RoomProps } from "./closing-screen.tsx";
import { Faults } from "./faults.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.proof.heat;
const KEYS = ["litres", "from", "to", "time", "watts", "volts", "load", "tub"] as const;
type Key = (typeof KEYS)[number];
const NEEDED = ["litres", "from", "to", "time", "watts"] as const;

/** How long it took from one temperature to another. */
export function HeatUpForm({ view, write, held }: RoomProps & { readonly held: boolean }) {
  const [typed, setTyped] = useState<Readonly<Partial<Record<Key, string>>>>({
    watts: String(view.setting?.heatingWatts ?? ""),
  });
  const { put, faults } = useCheckedWrite(write);
  const record = async () => {
    const told = Object.entries(typed).filter(([, text]) => text.trim() !== "");
    const body = Object.fromEntries(told.map(([key, text]) => [key, key === "time" ? inMinutes(text) : text]));
    if (await put({ kind: "heated", body })) setTyped({ watts: typed.watts ?? "" });
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        record();
      }}
    >
      <Amounts labels={words} keys={KEYS} typed={typed} onType={setTyped} />
      <Faults faults={faults} />
      <button
        type="submit"
        className="big-key"
        disabled={held || NEEDED.some((key) => (typed[key] ?? "").trim() === "")}
      >
        {words.write}
      </button>
    </form>
  );
}
