import { operationsToShow } from "../chance/index.ts";
import type { Prediction } from "../predict/index.ts";
import type { Cause, SignRule } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Belief, ForeseenCase } from "../suspect/index.ts";
import type { JobState } from "./fold-job.ts";
import type { WorkedJob } from "./work-out.ts";

type Reading = Extract<Observation, { kind: "reading" }>;
type Count = Extract<Observation, { kind: "count" }>;

/** What is still owed to the last repair of a job before it may be called mended. */
export interface Verification {
  /** The last repair: what was done, and to which part or cause by id. */
  readonly repair: { readonly remedy: string; readonly on: string; readonly says: string };
  /** Nothing but the use of the machine was put right: there is nothing to measure or to put back. */
  readonly adviceOnly: boolean;
  /** Readings that no good machine would have shown, not taken again since; and what a good one shows. */
  readonly toRead: readonly { readonly reading: Reading; readonly good?: Prediction }[];
  /** What came and went, not yet worked so often since without a failure that it would have shown; and how often still. */
  readonly toCount: readonly { readonly count: Count; readonly operations: number }[];
  /** What was amiss with the machine and was not seen to be right since. */
  readonly toSee: readonly { readonly sign: SignRule; readonly was: string }[];
  /** What was found since the repair and still is not as in a good machine. */
  readonly stillAmiss: readonly Observation[];
  /** Covers that are open, each with what it disturbs; connectors that are off. */
  readonly putBack: readonly { readonly access: string; readonly says: string; readonly items: readonly string[] }[];
  readonly pulled: readonly string[];
  /** Everything read and seen, and nothing still amiss. */
  readonly finished: boolean;
}

/** An answer, and a reading, so many times likelier under some fault than in a good machine is amiss. */
const ANSWER_AMISS = Math.log(3);
const READING_AMISS = Math.log(20);

/** So sure that it would have failed by now if it still came and went as before (our own choice). */
const WOULD_SHOW = 0.95;
/** More operations than this nobody does (common practice, no source). */
const MOST_OPERATIONS = 20;

/**
 * How far the last repair of a job is verified. None where nothing was mended, or where the last repair is said to have
 * failed: then the search goes on.
 */
export function verificationOf({ case: the, state, belief }: WorkedJob): Verification | undefined {
  const repair = state.repairs.at(-1);
  if (repair === undefined || repair.worked === false) return undefined;
  const before = state.observations.slice(0, repair.after).map(({ observation }) => observation);
  const since = state.observations.slice(repair.after).map(({ observation }) => observation);
  const cause = causeOf(the, repair.on);
  const adviceOnly = cause?.group === "use";
  const amiss = before.filter((observation) => isAmiss(the, observation));
  const toRead = adviceOnly
    ? []
    : lastOfEach(amiss.filter(isReading)).filter(({ probe }) => !state.work.probes.has(probe.id));
  const toCount = adviceOnly ? [] : countsToDo(before, since);
  const toSee = adviceOnly ? [] : signsToSee(the, before, amiss, since);
  const stillAmiss = since.filter((one) => isAmiss(the, one) || (one.kind === "count" && one.good < one.of));
  return {
    repair: { remedy: repair.remedy, on: repair.on, says: cause?.says ?? partSays(the, repair.on) },
    adviceOnly,
    toRead: toRead.map((reading) => {
      const good = goodOf(the, belief, reading);
      return { reading, ...(good === undefined ? {} : { good }) };
    }),
    toCount,
    toSee,
    stillAmiss,
    putBack: openCovers(the, state),
    pulled: [...state.work.pulled],
    finished: toRead.length === 0 && toCount.length === 0 && toSee.length === 0 && stillAmiss.length === 0,
  };
}

function causeOf(the: ForeseenCase, id: string): Cause | undefined {
  return the.candidates.flatMap(({ machine }) => machine.causes).find((cause) => cause.id === id);
}

function partSays(the: ForeseenCase, id: string): string {
  const things = the.candidates.flatMap(({ machine }) => [...machine.parts, ...machine.assemblies]);
  return things.find((one) => one.id === id)?.says ?? id;
}

function isReading(observation: Observation): observation is Reading {
  return observation.kind === "reading";
}

/** Is this hardly what a good machine shows, while a fault explains it? */
function isAmiss(the: ForeseenCase, observation: Observation): boolean {
  if (observation.kind !== "sign" && observation.kind !== "reading") return false;
  const logs = the.logLikelihood(observation);
  let good = Number.NEGATIVE_INFINITY;
  let best = Number.NEGATIVE_INFINITY;
  for (const [h, { kind }] of the.hypotheses.entries()) {
    best = Math.max(best, logs[h] as number);
    if (kind === "nothing wrong") good = Math.max(good, logs[h] as number);
  }
  return best - good > (observation.kind === "sign" ? ANSWER_AMISS : READING_AMISS);
}

/** What the likeliest good machine shows. */
function goodOf(the: ForeseenCase, belief: Belief, reading: Reading): Prediction | undefined {
  let best = -1;
  for (const [h, { kind }] of the.hypotheses.entries()) {
    if (kind !== "nothing wrong") continue;
    if (best < 0 || (belief.logPosterior[h] as number) > (belief.logPosterior[best] as number)) best = h;
  }
  return best < 0 ? undefined : the.prediction(best, reading);
}

/** The last reading of each probe. */
function lastOfEach(readings: readonly Reading[]): readonly Reading[] {
  return [...new Map(readings.map((reading) => [reading.probe.id, reading])).values()];
}

/** What failed now and then before the repair, with the operations without a failure that are still owed to it. */
function countsToDo(before: readonly Observation[], since: readonly Observation[]): Verification["toCount"] {
  const failed = before.filter((one): one is Count => one.kind === "count" && one.good < one.of);
  return [...new Map(failed.map((count) => [count.probe.id, count])).values()].flatMap((count) => {
    const owed = count.good === 0 ? 1 : Math.min(MOST_OPERATIONS, operationsToShow(count.good / count.of, WOULD_SHOW));
    const worked = since.reduce((sum, one) => {
      if (one.kind !== "count" || one.probe.id !== count.probe.id) return sum;
      return one.good === one.of ? sum + one.of : 0;
    }, 0);
    return worked >= owed ? [] : [{ count, operations: owed - worked }];
  });
}

/** Signs of the running machine that stood amiss at the last word before the repair, and that nobody has seen since. */
function signsToSee(
  the: ForeseenCase,
  before: readonly Observation[],
  amiss: readonly Observation[],
  since: readonly Observation[],
): Verification["toSee"] {
  const seen = new Set(since.flatMap((one) => (one.kind === "sign" && one.witness === "seen" ? [one.sign] : [])));
  const last = new Map(before.flatMap((one) => (one.kind === "sign" ? [[one.sign, one] as const] : [])));
  const signs = new Map(the.candidates.flatMap(({ machine }) => machine.signs).map((sign) => [sign.id, sign]));
  return [...last.values()].flatMap((one) => {
    const sign = signs.get(one.sign);
    if (sign === undefined || sign.rule.kind === "table" || seen.has(one.sign) || !amiss.includes(one)) return [];
    return [{ sign, was: one.answer }];
  });
}

function openCovers(the: ForeseenCase, state: JobState): Verification["putBack"] {
  const covers = new Map(the.candidates.flatMap(({ machine }) => machine.access).map((cover) => [cover.id, cover]));
  // The cover opened last goes on first.
  return [...state.work.open].reverse().flatMap((id) => {
    const cover = covers.get(id);
    return cover === undefined ? [] : [{ access: id, says: cover.says, items: cover.putsBack }];
  });
}
