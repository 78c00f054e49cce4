import { useEffect, useState } from "react";
import type { TestabilityRow } from "../../words/testability.ts";
import { askEngine } from "../engine/client.ts";
import type { Answered } from "../engine/protocol.ts";
import { text } from "../english.ts";

/** How far a sheet's faults can be told apart, in plain words. */
export function Testability({ name, answers }: { readonly name: string; readonly answers: Answered }) {
  const [rows, setRows] = useState<readonly TestabilityRow[]>();
  const [asked, setAsked] = useState(false);
  const words = text.sheets;
  useEffect(() => {
    if (!asked) return;
    let current = true;
    const ask = async () => {
      let found: readonly TestabilityRow[] | undefined;
      while (current && found === undefined) found = await askEngine({ do: "testability", name, answers });
      if (current) setRows(found);
    };
    ask();
    return () => {
      current = false;
    };
  }, [asked, name, answers]);
  return (
    <section>
      <h2>{words.tellApart}</h2>
      {rows === undefined ? (
        <button type="button" className="big-key quiet" disabled={asked} onClick={() => setAsked(true)}>
          {asked ? words.working : words.showTellApart}
        </button>
      ) : (
        <ul>
          {rows.map(({ says, shows, downTo: [one = 0, , three = 0], left }) => (
            <li key={says}>{words.testability(says, percent(shows), percent(one), percent(three), left.toFixed(1))}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function percent(share: number): number {
  return Math.round(100 * share);
}
