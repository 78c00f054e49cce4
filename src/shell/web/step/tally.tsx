import { useState } from "react";
import { text } from "../english.ts";

/** Operations counted with two big keys: it was good, it failed. */
export function Tally({ onDone }: { readonly onDone: (good: number, of: number) => void }) {
  const [good, setGood] = useState(0);
  const [failed, setFailed] = useState(0);
  const of = good + failed;
  return (
    <>
      <div className="keys">
        <button type="button" className="big-key" onClick={() => setGood(good + 1)}>
          {text.step.good}
        </button>
        <button type="button" className="big-key" onClick={() => setFailed(failed + 1)}>
          {text.step.failed}
        </button>
      </div>
      <p role="status" className="number">
        {text.step.counted(good, of)}
      </p>
      <button type="button" className="big-key" disabled={of === 0} onClick={() => onDone(good, of)}>
        {text.step.record}
      </button>
    </>
  );
}
