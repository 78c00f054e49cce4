import { useEffect, useRef, useState } from "react";
import type { Benched, BenchLine, BenchStep } from "../../../core/bench/index.ts";
import { limitsInWords } from "../../words/limits.ts";
import { sourceInWords } from "../../words/rating.ts";
import { text } from "../english.ts";
import { ReadingForm } from "../step/reading-form.tsx";
import { Tally } from "../step/tally.tsx";
import { verdictInWords } from "./words.ts";

/** One step of a loose part's test: what is done, what is good, and where the finding goes. */
export function BenchStepCard(props: {
  readonly step: BenchStep;
  readonly meter: { readonly id: string; readonly says: string } | undefined;
  readonly line: BenchLine | undefined;
  /** The first that is still to do: it stands open. */
  readonly isNext: boolean;
  readonly record: (benched: Benched) => void;
}) {
  const { step, meter, line, isNext, record } = props;
  const { reading, repeat, index } = step;
  const [typed, setTyped] = useState("");
  const words = text.bench;
  const card = useRef<HTMLDetailsElement>(null);
  const wasNext = useRef(isNext);
  // What stood open above folds at the same moment: the next one is kept in sight.
  useEffect(() => {
    if (isNext && !wasNext.current) card.current?.scrollIntoView({ block: "start" });
    wasNext.current = isNext;
  }, [isNext]);
  const write = (tally: { readonly good: number; readonly of: number } | undefined) => {
    const shows = typed.trim() || line?.shown || "";
    record({
      step: index,
      does: step.says,
      ...(shows === "" || reading === undefined ? {} : { shows }),
      ...(reading === undefined || meter === undefined ? {} : { meter: meter.id }),
      ...(reading?.quantity === "ohms" ? { leads: "nulled" as const } : {}),
      ...(tally ?? line?.tally ?? {}),
    });
    setTyped("");
  };
  return (
    <details className="bench-step" ref={card} open={isNext}>
      <summary>
        <span>
          {index + 1}. {words.acts[step.do]}: {step.says}
        </span>
        <b role="status">{line === undefined ? words.open : verdictInWords(line, step)}</b>
      </summary>
      <p>
        {words.good}: {reading === undefined ? step.good : limitsInWords(reading.quantity, reading.limits, words)}
        {meter === undefined ? "" : ` (${meter.says})`}
        {step.source === undefined ? null : <span className="faint"> {sourceInWords(step.source)}</span>}
      </p>
      {step.live && <p className="trouble">{words.liveCare}</p>}
      {reading?.quantity === "insulation ohms" && <p className="trouble">{words.insulationCare}</p>}
      {reading === undefined ? (
        <div className="keys">
          {(["good", "bad"] as const).map((found) => (
            <button
              key={found}
              type="button"
              className="big-key"
              onClick={() => record({ step: index, does: step.says, found })}
            >
              {words.found[found]}
            </button>
          ))}
        </div>
      ) : (
        <ReadingForm
          says={repeat === undefined ? text.own.shown : words.worst}
          quantity={reading.quantity}
          typed={typed}
          onType={setTyped}
          record={() => write(undefined)}
        />
      )}
      {repeat !== undefined && (
        <>
          <p>{words.operations(repeat)}</p>
          <Tally key={`${line?.tally?.of ?? 0}`} onDone={(good, of) => write({ good, of })} />
        </>
      )}
    </details>
  );
}
