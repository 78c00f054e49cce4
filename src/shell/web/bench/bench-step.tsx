import { useState } from "react";
import type { Benched, BenchLine, BenchStep } from "../../../core/bench/index.ts";
import { parseShown } from "../../../core/meter/index.ts";
import { text } from "../english.ts";
import { Keypad } from "../step/keypad.tsx";
import { Tally } from "../step/tally.tsx";
import { limitsInWords, verdictInWords } from "./words.ts";

/** One step of a loose part's test: what is done, what is good, and where the finding goes. */
export function BenchStepCard(props: {
  readonly step: BenchStep;
  readonly meter: { readonly id: string; readonly says: string } | undefined;
  readonly line: BenchLine | undefined;
  readonly record: (benched: Benched) => void;
}) {
  const { step, meter, line, record } = props;
  const { reading, repeat, index } = step;
  const [typed, setTyped] = useState("");
  const read = reading === undefined ? undefined : parseShown(typed, reading.quantity);
  const wrong = typed.trim() !== "" && read?.ok === false;
  const words = text.bench;
  const write = (tally: { readonly good: number; readonly of: number } | undefined) => {
    const shows = typed.trim() || line?.shown || "";
    record({
      step: index,
      ...(shows === "" || reading === undefined ? {} : { shows }),
      ...(reading === undefined || meter === undefined ? {} : { meter: meter.id }),
      ...(reading?.quantity === "ohms" ? { leads: "nulled" as const } : {}),
      ...(tally ?? line?.tally ?? {}),
    });
    setTyped("");
  };
  return (
    <details className="bench-step">
      <summary>
        <span>
          {index + 1}. {words.acts[step.do]}: {step.says}
        </span>
        <b role="status">{line === undefined ? words.open : verdictInWords(line, step)}</b>
      </summary>
      <p>
        {words.good}: {reading === undefined ? step.good : limitsInWords(reading)}
        {meter === undefined ? "" : ` (${meter.says})`}
      </p>
      {step.live && <p className="trouble">{words.liveCare}</p>}
      {reading?.quantity === "insulation ohms" && <p className="trouble">{words.insulationCare}</p>}
      {reading === undefined ? (
        <div className="keys">
          {(["good", "bad"] as const).map((found) => (
            <button key={found} type="button" className="big-key" onClick={() => record({ step: index, found })}>
              {words.found[found]}
            </button>
          ))}
        </div>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (read?.ok === true) write(undefined);
          }}
        >
          <label>
            {repeat === undefined ? text.own.shown : words.worst}
            <input
              className="reading-input"
              autoComplete="off"
              inputMode="none"
              value={typed}
              onChange={(event) => setTyped(event.currentTarget.value)}
              aria-invalid={wrong}
            />
          </label>
          <p className="fault" role="status">
            {wrong ? text.step.unread(typed) : ""}
          </p>
          <Keypad quantity={reading.quantity} value={typed} onChange={setTyped} onNext={undefined} />
          <button type="submit" className="big-key" disabled={typed.trim() === "" || read?.ok !== true}>
            {text.step.record}
          </button>
        </form>
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
