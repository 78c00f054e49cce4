import { useEffect, useState } from "react";
import type { JobRecord } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import type { PracticeEnd } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { practiceOf } from "./ask-machine.ts";

/** What was wrong, and two histories of the very same machine side by side. The figures stand for themselves. */
export function TwoHistories({ record }: { readonly record: JobRecord }) {
  const [end, setEnd] = useState<PracticeEnd>();
  const words = text.practice;
  const ended = record.end === "mended" ? "mended" : "stopped";
  useEffect(() => {
    const practice = practiceOf(record);
    if (practice !== undefined) askEngine({ do: "practice ends", ...practice, ended }).then(setEnd);
  }, [record, ended]);
  if (end === undefined) return <p role="status">{words.planWorks}</p>;
  return (
    <section>
      {end.hidden.map((line) => (
        <p key={line}>
          <b>{line}</b>
        </p>
      ))}
      <div className="beside">
        {([words.yours, words.plans] as const).map((whose) => (
          <div key={whose}>
            <h2>{whose}</h2>
            <ol className="ledger">
              {(whose === words.yours ? end.yours : end.plan).map(({ minutes, says }, n) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a history stands still, and may say the same twice
                <li key={n}>
                  <span className="number faint">{minutes}′</span> {says}
                </li>
              ))}
            </ol>
          </div>
        ))}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard too */}
      <div className="rounds" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.cameTo}</th>
              <th scope="col">{words.yours}</th>
              <th scope="col">{words.plans}</th>
            </tr>
          </thead>
          <tbody>
            {end.sums.map(({ says, yours, plan }) => (
              <tr key={says}>
                <th scope="row">{says}</th>
                <td>{yours}</td>
                <td>{plan}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="faint">{words.money}</p>
    </section>
  );
}
