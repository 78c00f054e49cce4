import type { Machine } from "../sheet/index.ts";
import type { Belief, Candidate, ModeOdds } from "./case.ts";
import type { Entry } from "./prior.ts";

/** One observation that counts, with ln of its chance under each hypothesis. */
export interface Weighing {
  /** Its place in the job. */
  readonly index: number;
  readonly logChance: Float64Array;
  /** ln P(seen) by a slip or a wrong answer, whatever is wrong. */
  readonly logSlip: number;
  /** ln P(seen) when anything might be seen: what its chance is measured against. */
  readonly logAnything: number;
}

/** An observation contradicts the others when it is likelier a slip than not, or something unknown explains all better ... */
const CONTRADICTS = 0.5;
/**
 * ... and, by all the others, it was twenty times less likely than a blind guess. So rare is a slip, or the best of
 * witnesses gone wrong; an ordinary wrong answer on the telephone is not. On 200 drawn dryers without a slip this spoke on
 * 2 (on 69 at a factor of three), on 29 with one slip among five readings on 10 (`test/laws/contradictions.test.ts`).
 */
const SURPRISE = -Math.log(20);

/**
 * Odds after observations that are independent given the hypothesis.
 *
 * @source Bayes' rule; leave-one-out: each observation's chance given all the others, Σ P(h | others) P(seen | h)
 */
export function beliefOf(roll: Roll, seen: readonly Weighing[]): Belief {
  const logPosterior = roll.logPrior.slice();
  for (const { logChance } of seen) for (let h = 0; h < logPosterior.length; h++) logPosterior[h] += logChance[h];
  const logMass = logSumExp(logPosterior);
  for (let h = 0; h < logPosterior.length; h++) logPosterior[h] -= logMass;

  const tally = tallied(roll, logPosterior);
  const worst = worstOf(seen, logPosterior, tally.notOnThisSheet);
  return {
    logPosterior,
    ...tally,
    logEvidence: logMass - roll.logPriorMass,
    ...(worst === undefined ? {} : { worst }),
  };
}

type Tally = Pick<Belief, "modes" | "parts" | "nothingWrong" | "notOnThisSheet" | "severalFaults">;

function tallied(roll: Roll, logPosterior: Float64Array): Tally {
  const { entries, start, numbers, modes } = roll;
  let nothingWrong = 0;
  let notOnThisSheet = 0;
  let severalFaults = 0;
  const odds = new Float64Array(modes.length);
  for (let h = 0; h < entries.length; h++) {
    if (logPosterior[h] < LEAST_LOG) continue;
    const p = Math.exp(logPosterior[h]);
    const count = start[h + 1] - start[h];
    for (let i = start[h]; i < start[h + 1]; i++) odds[numbers[i]] += p;
    if (count > 1) severalFaults += p;
    if (count === 0 && entries[h].kind === "nothing wrong") nothingWrong += p;
    if (count === 0 && entries[h].kind === "not on this sheet") notOnThisSheet += p;
  }
  const listed = modes.map(({ mode, part, partSays, says }, m) => ({ mode, part, partSays, says, p: odds[m] }));
  listed.sort(byOdds);
  const parts = new Map<string, { part: string; says: string; p: number; modes: ModeOdds[] }>();
  for (const { partSays, ...one } of listed) {
    const known = parts.get(one.part);
    if (known === undefined) parts.set(one.part, { part: one.part, says: partSays, p: one.p, modes: [one] });
    else {
      known.p += one.p;
      known.modes.push(one);
    }
  }
  return {
    modes: listed.map(({ partSays: _, ...one }) => one),
    parts: [...parts.values()].sort((a, b) => b.p - a.p || (a.part < b.part ? -1 : 1)),
    nothingWrong,
    notOnThisSheet,
    severalFaults,
  };
}

/** ln Σ exp; what is e^-45 of the greatest would not change the last digit. */
function logSumExp(logs: Float64Array): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let h = 0; h < logs.length; h++) if (logs[h] > top) top = logs[h];
  if (!Number.isFinite(top)) return top;
  let sum = 0;
  for (let h = 0; h < logs.length; h++) if (logs[h] > top - 45) sum += Math.exp(logs[h] - top);
  return top + Math.log(sum);
}

/** A hypothesis under e^-45 adds nothing that a double would show. */
const LEAST_LOG = -45;

/** The hypotheses of a case with their modes numbered over all candidates, so that odds are added by number. */
export interface Roll {
  readonly entries: readonly Entry[];
  readonly logPrior: Float64Array;
  readonly logPriorMass: number;
  /** Numbers of the modes of hypothesis h: `numbers[start[h]]` up to `numbers[start[h + 1]]`. */
  readonly start: Int32Array;
  readonly numbers: Int32Array;
  readonly modes: readonly {
    readonly mode: string;
    readonly part: string;
    readonly partSays: string;
    readonly says: string;
  }[];
}

export function rollOf(entries: readonly Entry[], candidates: readonly Candidate[]): Roll {
  const known = new Map<string, number>();
  const modes: { mode: string; part: string; partSays: string; says: string }[] = [];
  const start = new Int32Array(entries.length + 1);
  const numbers: number[] = [];
  for (const [h, entry] of entries.entries()) {
    for (const mode of entry.modes) {
      let number = known.get(mode.id);
      if (number === undefined) {
        number = modes.length;
        known.set(mode.id, number);
        const part = partKey(mode, candidates[entry.candidate].machine);
        modes.push({ mode: mode.id, part, partSays: mode.partSays, says: mode.says });
      }
      numbers.push(number);
    }
    start[h + 1] = numbers.length;
  }
  const logPrior = Float64Array.from(entries, (entry) => entry.logPrior);
  return { entries, logPrior, logPriorMass: logSumExp(logPrior), start, numbers: Int32Array.from(numbers), modes };
}

function byOdds(a: { p: number; mode: string }, b: { p: number; mode: string }): number {
  return b.p - a.p || (a.mode < b.mode ? -1 : 1);
}

/** Part id, or cause id; of joints that nothing reachable parts, the name of their group. */
export function partKey(mode: Entry["modes"][number], machine: Machine): string {
  if (mode.cause >= 0) return machine.causes[mode.cause].id;
  if (mode.parts.length > 1) return mode.id.slice(0, mode.id.lastIndexOf("/"));
  return machine.parts[mode.part].id;
}

function worstOf(seen: readonly Weighing[], logPosterior: Float64Array, notOnThisSheet: number): Belief["worst"] {
  let worst: { observation: number; logChance: number; contradicts: boolean } | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const { index, logChance, logSlip, logAnything } of seen) {
    const chance = chanceGivenOthers(logPosterior, logChance);
    const surprise = chance - logAnything;
    if (surprise >= least) continue;
    least = surprise;
    let slipped = 0;
    for (let h = 0; h < logPosterior.length; h++) {
      if (logPosterior[h] > LEAST_LOG) slipped += Math.exp(logPosterior[h] + Math.min(0, logSlip - logChance[h]));
    }
    const contradicts = surprise < SURPRISE && (slipped > CONTRADICTS || notOnThisSheet > CONTRADICTS);
    worst = { observation: index, logChance: chance, contradicts };
  }
  return worst;
}

/**
 * ln of an observation's chance given all the others: 1 / Σ P(h | all) / P(seen | h). The sum is at least 1, so small terms
 * are left out; an offset keeps great ones from overflowing.
 */
function chanceGivenOthers(logPosterior: Float64Array, logChance: Float64Array): number {
  const offset = 350;
  let sum = 0;
  for (let h = 0; h < logPosterior.length; h++) {
    const log = logPosterior[h] - logChance[h];
    if (log > LEAST_LOG) sum += Math.exp(log - offset);
  }
  return -Math.log(sum) - offset;
}
