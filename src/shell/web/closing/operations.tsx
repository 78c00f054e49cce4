import { TextInput } from "@mantine/core";
import { useState } from "react";
import type { JobRecord } from "../../../core/ledger/index.ts";
import { type OperationsProof, proveByOperations } from "../../../core/proof/index.ts";
import { minutesInWords } from "../../words/odds.ts";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import type { RoomProps } from "./closing-screen.tsx";
import { mendedPart, PartChoice } from "./part-choice.tsx";

const words = closingText.proof.operations;

/** Two large keys, an event each: what the operations prove so far, how many more are wanted, and what changing the part costs. */
export function Operations({ job, view, write }: RoomProps) {
  const [part, setPart] = useState<string | null>(mendedPart(view));
  const [minutes, setMinutes] = useState(String(view.operationMinutes));
  const chosen = view.parts.find(({ id }) => id === part);
  const operated = part === null ? [] : operationsOf(job.record, part);
  const good = operated.filter(({ isGood }) => isGood).length;
  const each = Number(minutes) > 0 ? Number(minutes) : view.operationMinutes;
  const press = (isGood: boolean) =>
    write({ kind: "operated", body: { on: part, good: isGood ? 1 : 0, of: 1, minutes: each } });
  const last = operated.at(-1);
  return (
    <>
      <p>{words.about}</p>
      <PartChoice parts={view.parts} value={part} onChange={setPart} />
      {chosen !== undefined && (
        <>
          <p className="counted" role="status">
            <b>{operated.length === 0 ? words.none : words.counted(good, operated.length)}</b>{" "}
            <ProofLine proof={proveByOperations(good, operated.length)} each={each} view={view} />
          </p>
          <div className="keys two">
            <button type="button" className="big-key" onClick={() => press(true)}>
              {words.good}
            </button>
            <button type="button" className="big-key quiet" onClick={() => press(false)}>
              {words.bad}
            </button>
          </div>
          {last !== undefined && (
            <button type="button" className="small-key" onClick={() => write({ kind: "withdraws", body: last.event })}>
              {words.takeBack}
            </button>
          )}
          <p>
            {chosen.change === undefined
              ? words.noChange
              : words.change(minutesInWords(chosen.change.minutes), money(chosen.change.price, view))}
          </p>
          <TextInput
            size="lg"
            inputMode="decimal"
            label={words.minutes}
            value={minutes}
            onChange={(event) => setMinutes(event.currentTarget.value.replace(",", "."))}
          />
        </>
      )}
    </>
  );
}

/** Enough, go on, or not mended; the bound so far, and what was asked. */
function ProofLine({
  proof,
  each,
  view,
}: {
  readonly proof: OperationsProof;
  readonly each: number;
  readonly view: ClosingView;
}) {
  const more = proof.more ?? 0;
  const time = words.price(minutesInWords(more * each), money((more * each * view.perHour) / 60, view));
  const says = {
    enough: words.enough,
    "go on": words.goOn(more, time),
    "not mended": words.notMended(words.per(proof.failsAtLeast)),
  }[proof.says];
  return (
    <>
      {says} {proof.failsAtMost < 1 && words.bound(words.per(proof.failsAtMost))}{" "}
      <span className="faint">{words.aim}</span>
    </>
  );
}

/** Operations of a part since it was mended last, as written down one by one or several at once. */
function operationsOf(
  record: JobRecord,
  part: string,
): readonly { readonly event: string; readonly isGood: boolean }[] {
  const counting = record.events.filter(({ id }) => !record.withdrawn.has(id));
  const mended = counting.findLast(({ kind, body }) => kind === "did" && (body as { on?: unknown }).on === part);
  return counting.flatMap(({ id, kind, body }) => {
    if (kind !== "operated" || (mended !== undefined && id < mended.id)) return [];
    const { on, good, of } = body as { readonly on: string; readonly good: number; readonly of: number };
    if (on !== part) return [];
    return Array.from({ length: of }, (_, n) => ({ event: id, isGood: n < good }));
  });
}

function money(amount: number, { currency }: ClosingView): string {
  return `${amount.toFixed(0)} ${currency}`;
}
