import { useState } from "react";
import { generalOf, type PlanStep } from "../../../core/plan/index.ts";
import { capital } from "../../words/capital.ts";
import { chargeInWords } from "../../words/step.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/**
 * What can hurt at this step. What belongs to this very step always stands open; what holds at every step is acknowledged
 * once a job, and then folds to one line that opens again.
 */
export function Cautions(props: {
  readonly step: PlanStep;
  /** Codes of what was acknowledged. */
  readonly minded: ReadonlySet<string>;
  readonly write: Write;
}) {
  const { step, minded, write } = props;
  const [isOpen, setIsOpen] = useState(false);
  const general = generalOf(step.cautions);
  const folded = general.filter(({ code }) => minded.has(code));
  const open = step.cautions.filter((caution) => !folded.includes(caution));
  const unread = general.flatMap(({ code }) => (minded.has(code) ? [] : [code]));
  const lines = [...step.stored.map(chargeInWords), ...linesOf(open), ...(isOpen ? linesOf(folded) : [])];
  return (
    <>
      <h3 className="unseen">{text.step.care}</h3>
      {lines.length > 0 && (
        <ul className="care">
          {lines.map((line) => (
            <li key={line}>{capital(line)}</li>
          ))}
        </ul>
      )}
      {folded.length > 0 && (
        <button type="button" className="line-key more" aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
          {text.step.mindedCare(folded.length)}
        </button>
      )}
      {unread.length > 0 && (
        <button type="button" className="line-key more" onClick={() => write({ kind: "minded", body: unread })}>
          {text.step.mind(unread.length)}
        </button>
      )}
    </>
  );
}

function linesOf(cautions: PlanStep["cautions"]): readonly string[] {
  return cautions.flatMap(({ lines }) => lines);
}
