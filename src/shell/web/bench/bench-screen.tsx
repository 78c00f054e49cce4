import { useState } from "react";
import { Link } from "wouter";
import type { BenchLine, BenchStep } from "../../../core/bench/index.ts";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { EndKey } from "../end/end-keys.tsx";
import { text } from "../english.ts";
import { useWriting } from "../job/use-writing.ts";
import { Troubles } from "../shell/troubles.tsx";
import { BenchStepCard } from "./bench-step.tsx";
import { PartWarmth } from "./part-warmth.tsx";
import { Rounds } from "./rounds.tsx";
import { useBench } from "./use-bench.ts";
import { gradeInWords } from "./words.ts";

/** A loose part on the bench: its own test, cleaned, tested again, graded. */
export function BenchScreen({ id }: { readonly id: string }) {
  const { record, view, issues } = useBench(id);
  const { put, refused } = useWriting(id, record);
  const [said, setSaid] = useState("");
  const words = text.bench;
  const write = async (...events: readonly WrittenEvent[]) => {
    const ids = await put(...events);
    if (ids !== undefined) setSaid(words.written);
    return ids;
  };
  const last = view?.rounds.at(-1);
  const next = view?.test.steps.find((step) => !isDone(step, last?.lines.get(step.index)))?.index;
  return (
    <main className="column">
      <p className="way-back">
        <Link href="/">‹ {text.places.jobs}</Link>
      </p>
      {record !== undefined && (
        <h1>
          <span className="number">{record.head.number}</span> {record.head.complaint}
        </h1>
      )}
      <Troubles refused={refused} issues={issues} />
      {view !== undefined && record !== undefined && (
        <>
          <p className="faint">{view.ratings.map(({ says, value }) => `${says} ${value}`).join(" · ")}</p>
          <ul className="care">
            <li>{words.dead}</li>
            {view.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
            {view.test.duty?.atMostPerMinute !== undefined && (
              <li>{words.duty(view.test.duty.atMostPerMinute, view.test.duty.oneOperationSeconds)}</li>
            )}
          </ul>
          <p>
            <b>{gradeInWords(view.grade)}</b>
          </p>
          {record.end !== undefined ? (
            <>
              <p>{words.ends[record.end]}</p>
              <button type="button" className="big-key quiet" onClick={() => write({ kind: "reopens", body: null })}>
                {text.end.reopen}
              </button>
            </>
          ) : (
            <>
              {view.test.steps.some(({ reading }) => reading?.perKelvin !== undefined) && (
                <PartWarmth celsius={view.test.celsius} write={(body) => write({ kind: "warmth", body })} />
              )}
              {view.test.steps.map((step) => (
                <BenchStepCard
                  key={`${view.rounds.length} ${step.index}`}
                  step={step}
                  meter={view.meters[step.index]}
                  line={last?.lines.get(step.index)}
                  isNext={step.index === next}
                  record={(body) => write({ kind: "benched", body })}
                />
              ))}
              <button type="button" className="big-key quiet" onClick={() => write({ kind: "cleaned", body: null })}>
                {words.cleaned}
              </button>
            </>
          )}
          <p className="unseen" role="status">
            {said}
          </p>
          {(view.rounds.length > 1 || view.rounds[0].others.length > 0) && <Rounds view={view} />}
          {record.end === undefined && (
            <section>
              <h2>{words.where}</h2>
              <EndKey
                end="mended"
                says={words.shelf}
                write={write}
                disabled={view.grade.says !== "good" && view.grade.says !== "not faulted"}
              />
              <EndKey end="stopped" says={words.out} write={write} disabled={view.grade.says === "not finished"} />
            </section>
          )}
          <p>
            <Link href={`/bench/${id}/tag`} className="line-key">
              {words.tag}
            </Link>
          </p>
        </>
      )}
    </main>
  );
}

/** Its finding is written, and where operations are counted, they are too. */
function isDone({ repeat }: BenchStep, line: BenchLine | undefined): boolean {
  return line !== undefined && (repeat === undefined || line.tally !== undefined) && line.verdict?.says !== "go on";
}
