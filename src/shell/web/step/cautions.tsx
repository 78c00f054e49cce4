import { useState } from "react";
import type { PlanStep } from "../../../core/plan/index.ts";
import { capital } from "../../words/capital.ts";
import { chargeInWords } from "../../words/step.ts";
import { text } from "../english.ts";

/** Told in full before the rest folds behind a key: what holds a charge, and what comes first in the plan's own order. */
const toldFirst = 2;

/** What can hurt at this very step. */
export function Cautions({ step }: { readonly step: PlanStep }) {
  const [whole, setWhole] = useState(false);
  const lines = [...step.stored.map(chargeInWords), ...step.cautions.flatMap((caution) => caution.lines)];
  if (lines.length === 0) return null;
  // A key for a single line would take the place of the line.
  const first =
    whole || lines.length <= toldFirst + 1 ? lines : lines.slice(0, Math.max(toldFirst, step.stored.length));
  return (
    <>
      <h3 className="unseen">{text.step.care}</h3>
      <ul className="care">
        {first.map((line) => (
          <li key={line}>{capital(line)}</li>
        ))}
      </ul>
      {first.length < lines.length && (
        <button type="button" className="line-key more" onClick={() => setWhole(true)}>
          {text.step.moreCare(lines.length - first.length)}
        </button>
      )}
    </>
  );
}
