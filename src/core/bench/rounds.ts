import type { JobRecord } from "../ledger/index.ts";
import { type Leads, type Meter, parseShown } from "../meter/index.ts";
import { type BenchTest, ROOM_CELSIUS } from "./bench-test.ts";
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
  /** Findings of steps that the kind's test no longer has: what was done, and what was found. */
  readonly others: readonly { readonly does: string; readonly shown: string }[];
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
  /** The step in words, as it was then: a test may get other steps later, and a finding stays with its own. */
  readonly does?: string;
  readonly shows?: string;
  readonly meter?: string;
  readonly leads?: Leads;
  readonly found?: "good" | "bad";
  readonly good?: number;
  readonly of?: number;
}

/** An event of a bench job as it is written: kind `warmth`. The readings after it are of a part so warm, in degrees. */
export interface Warmth {
  readonly celsius: number;
}

/**
 * Rounds of a loose part's test: a cleaning begins a new one; in a round the last word on a step counts.
 *
 * @param testAt the part's test at a temperature, degrees
 */
export function roundsOf(
  record: Pick<JobRecord, "events" | "withdrawn">,
  testAt: (celsius: number) => BenchTest,
  meters: ReadonlyMap<string, Meter>,
): readonly BenchRound[] {
  let test = testAt(ROOM_CELSIUS);
  let lines = new Map<number, BenchLine>();
  let others: BenchRound["others"][number][] = [];
  const rounds: BenchRound[] = [{ lines, others }];
  for (const { id, kind, body } of record.events) {
    if (record.withdrawn.has(id)) continue;
    if (kind === "warmth") test = testAt(warmthOf(body));
    if (kind === "cleaned") {
      lines = new Map();
      others = [];
      rounds.push({ lines, others });
    }
    if (kind !== "benched") continue;
    const { step: index, does, ...written } = body as Benched;
    const shown = written.shows ?? written.found ?? "";
    const step = does === undefined ? test.steps[index] : test.steps.find(({ says }) => says === does);
    if (step === undefined) {
      others.push({ does: does ?? "", shown });
      continue;
    }
    const result = resultOf(written, step.reading?.quantity, meters);
    const verdict = judgeStep(step, result);
    lines.set(step.index, {
      shown,
      ...(result.tally === undefined ? {} : { tally: result.tally }),
      ...(verdict === undefined ? {} : { verdict }),
    });
  }
  return rounds;
}

/** The part's temperature as last told, degrees. */
export function celsiusOf({ events, withdrawn }: Pick<JobRecord, "events" | "withdrawn">): number {
  const last = events.findLast(({ id, kind }) => kind === "warmth" && !withdrawn.has(id));
  return last === undefined ? ROOM_CELSIUS : warmthOf(last.body);
}

/** A record from elsewhere may hold anything. */
function warmthOf(body: unknown): number {
  const celsius = (body as Partial<Warmth> | null)?.celsius;
  return typeof celsius === "number" && celsius > -40 && celsius < 200 ? celsius : ROOM_CELSIUS;
}

function resultOf(
  { shows, meter: named, leads, found, good, of }: Omit<Benched, "step" | "does">,
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
