import type { JobRecord } from "../ledger/index.ts";
import { type Leads, type Meter, parseShown } from "../meter/index.ts";
import type { BenchTest } from "./bench-test.ts";
import { type BenchResult, type BenchVerdict, judgeStep } from "./judge.ts";

/** One step as it was done in one round. */
export interface BenchLine {
  /** What was read or found, as typed. */
  readonly shown: string;
  readonly tally?: { readonly good: number; readonly of: number };
  readonly verdict?: BenchVerdict;
}

/** Everything between one cleaning and the next: what was found, by the index of its step. */
export interface BenchRound {
  readonly lines: ReadonlyMap<number, BenchLine>;
}

/** What a part is good for, as its last round tells. */
export interface Grade {
  /** "not faulted": good as far as the meter can tell. */
  readonly says: "not finished" | "good" | "not faulted" | "doubtful" | "not for use";
  /** Something was bad before it was cleaned. */
  readonly cleaned: boolean;
}

/** An event of a bench job as it is written: kind `benched`. */
export interface Benched {
  readonly step: number;
  readonly shows?: string;
  readonly meter?: string;
  readonly leads?: Leads;
  readonly found?: "good" | "bad";
  readonly good?: number;
  readonly of?: number;
}

/** Rounds of a loose part's test: a cleaning begins a new one; in a round the last word on a step counts. */
export function roundsOf(
  { events, withdrawn }: Pick<JobRecord, "events" | "withdrawn">,
  test: BenchTest,
  meters: ReadonlyMap<string, Meter>,
): readonly BenchRound[] {
  const rounds: Map<number, BenchLine>[] = [new Map()];
  for (const { id, kind, body } of events) {
    if (withdrawn.has(id)) continue;
    if (kind === "cleaned") rounds.push(new Map());
    if (kind !== "benched") continue;
    const { step: index, ...written } = body as Benched;
    const step = test.steps[index];
    if (step === undefined) continue;
    const result = resultOf(written, step.reading?.quantity, meters);
    const verdict = judgeStep(step, result);
    rounds.at(-1)?.set(index, {
      shown: written.shows ?? written.found ?? "",
      ...(result.tally === undefined ? {} : { tally: result.tally }),
      ...(verdict === undefined ? {} : { verdict }),
    });
  }
  return rounds.map((lines) => ({ lines }));
}

function resultOf(
  { shows, meter: named, leads, found, good, of }: Omit<Benched, "step">,
  quantity: Parameters<typeof parseShown>[1] | undefined,
  meters: ReadonlyMap<string, Meter>,
): BenchResult {
  const read = shows === undefined || quantity === undefined ? undefined : parseShown(shows, quantity);
  const meter = named === undefined ? undefined : meters.get(named);
  return {
    ...(read?.ok === true ? { shown: read.value } : {}),
    ...(meter === undefined ? {} : { meter }),
    ...(leads === undefined ? {} : { leads }),
    ...(found === undefined ? {} : { found }),
    ...(good === undefined || of === undefined ? {} : { tally: { good, of } }),
  };
}

/** The grade that the last round gives: no step may be bad in it. */
export function gradeOf(test: BenchTest, rounds: readonly BenchRound[]): Grade {
  const last = rounds.at(-1)?.lines ?? new Map<number, BenchLine>();
  const before = rounds.slice(0, -1).flatMap(({ lines }) => [...lines.values()]);
  const cleaned = before.some(({ verdict }) => verdict?.says === "bad");
  return { says: saysOf(test.steps.map(({ index }) => last.get(index)?.verdict?.says)), cleaned };
}

function saysOf(verdicts: readonly (BenchVerdict["says"] | undefined)[]): Grade["says"] {
  if (verdicts.includes("bad")) return "not for use";
  if (verdicts.some((says) => says === undefined || says === "go on")) return "not finished";
  if (verdicts.includes("too close to say")) return "doubtful";
  return verdicts.includes("cannot fault it") ? "not faulted" : "good";
}
