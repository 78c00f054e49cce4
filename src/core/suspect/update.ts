import type { Machine } from "../sheet/index.ts";
import type { Belief, Candidate, ModeOdds } from "./case.ts";
import type { Entry } from "./prior.ts";

/** Chances of one observation; hypotheses that give it the same share a number, since most pairs do as one of their two. */
export interface ChancesByNumber {
  /** Number of each hypothesis. */
  readonly numbers: Int32Array;
  /** Chance by number, at least `LEAST_CHANCE`. */
  readonly chance: Float64Array;
  readonly logChance: Float64Array;
}

/** One observation that counts. */
export interface Weighing extends ChancesByNumber {
  /** Its place in the job. */
  readonly index: number;
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
  const { odds, logEvidence } = oddsAfter(roll, seen, logPosterior);
  const logMass = roll.logPriorMass + logEvidence;
  for (let h = 0; h < logPosterior.length; h++) logPosterior[h] -= logMass;

  const tally = tallied(roll, odds);
  const worst = worstOf(seen, odds, tally.notOnThisSheet);
  return {
    logPosterior,
    ...tally,
    logEvidence,
    ...(worst === undefined ? {} : { worst }),
  };
}

/** Products that have shrunk so far might have lost something that still counts. */
const LEAST_MASS = 1e-100;

/**
 * Adds the log chances of all that was seen to log priors, in place; the odds themselves, normalised, and the ln of what
 * share of the prior odds is left. Exponentials are dear, so the odds are multiplied out beside the logarithms; where
 * nothing explains what was seen, and the products vanish, they are made from the logarithms after all.
 */
function oddsAfter(
  { prior, logPriorMass }: Roll,
  seen: readonly Weighing[],
  logs: Float64Array,
): { readonly odds: Float64Array; readonly logEvidence: number } {
  const odds = prior.slice();
  let logScale = 0;
  for (const { numbers, chance, logChance } of seen) {
    const top = chance.reduce((most, p) => Math.max(most, p));
    const share = chance.map((p) => p / top);
    logScale += Math.log(top);
    for (let h = 0; h < logs.length; h++) {
      const number = numbers[h];
      logs[h] += logChance[number];
      odds[h] *= share[number];
    }
  }
  const left = madeToSumToOne(odds);
  if (left > LEAST_MASS) return { odds, logEvidence: Math.log(left) + logScale };
  const exact = oddsOf(logs);
  return { odds: exact.odds, logEvidence: exact.logMass - logPriorMass };
}

/** Odds of logarithms, normalised, and the ln of their mass. */
function oddsOf(logs: Float64Array): { readonly odds: Float64Array; readonly logMass: number } {
  const top = logs.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  if (!Number.isFinite(top)) return { odds: new Float64Array(logs.length), logMass: top };
  const odds = logs.map((log) => Math.exp(log - top));
  return { odds, logMass: top + Math.log(madeToSumToOne(odds)) };
}

/** Normalises in place; gives the sum that they had. Added up in stretches, a hundred thousand small odds keep their digits. */
function madeToSumToOne(odds: Float64Array): number {
  let sum = 0;
  for (let from = 0; from < odds.length; from += STRETCH) {
    const to = Math.min(from + STRETCH, odds.length);
    let part = 0;
    for (let h = from; h < to; h++) part += odds[h];
    sum += part;
  }
  for (let h = 0; h < odds.length; h++) odds[h] /= sum;
  return sum;
}

const STRETCH = 256;

type Tally = Pick<Belief, "modes" | "parts" | "nothingWrong" | "notOnThisSheet" | "severalFaults">;

function tallied(roll: Roll, posterior: Float64Array): Tally {
  const { entries, start, numbers, modes } = roll;
  let nothingWrong = 0;
  let notOnThisSheet = 0;
  let severalFaults = 0;
  const odds = new Float64Array(modes.length);
  for (let h = 0; h < entries.length; h++) {
    const p = posterior[h];
    const count = start[h + 1] - start[h];
    for (let i = start[h]; i < start[h + 1]; i++) odds[numbers[i]] += p;
    if (count > 1) severalFaults += p;
    if (count === 0 && entries[h].kind === "nothing wrong") nothingWrong += p;
    if (count === 0 && entries[h].kind === "not on this sheet") notOnThisSheet += p;
  }
  const listed = modes.map(({ mode, part, partSays, says }, m) => ({ mode, part, partSays, says, p: odds[m] }));
  listed.sort((a, b) => byOdds(a, b) || (a.mode < b.mode ? -1 : 1));
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
    parts: [...parts.values()].sort((a, b) => byOdds(a, b) || (a.part < b.part ? -1 : 1)),
    nothingWrong,
    notOnThisSheet,
    severalFaults,
  };
}

/** The hypotheses of a case with their modes numbered over all candidates, so that odds are added by number. */
export interface Roll {
  readonly entries: readonly Entry[];
  readonly logPrior: Float64Array;
  /** The prior odds, normalised, and the ln of what they summed to. */
  readonly prior: Float64Array;
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
    for (const { mode } of entry.atoms) {
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
  const { odds: prior, logMass: logPriorMass } = oddsOf(logPrior);
  return { entries, logPrior, prior, logPriorMass, start, numbers: Int32Array.from(numbers), modes };
}

/** Likeliest first; what only the order of adding up tells apart in the last digits is equal. */
function byOdds(a: { readonly p: number }, b: { readonly p: number }): number {
  return Math.fround(b.p) - Math.fround(a.p);
}

/** Part id, or cause id; of joints that nothing reachable parts, the name of their group. */
export function partKey(mode: Entry["modes"][number], machine: Machine): string {
  if (mode.cause >= 0) return machine.causes[mode.cause].id;
  if (mode.parts.length > 1) return mode.id.slice(0, mode.id.lastIndexOf("/"));
  return machine.parts[mode.part].id;
}

function worstOf(seen: readonly Weighing[], odds: Float64Array, notOnThisSheet: number): Belief["worst"] {
  let worst: { weighing: Weighing; oddsByNumber: Float64Array; logChance: number; surprise: number } | undefined;
  for (const weighing of seen) {
    const oddsByNumber = summed(odds, weighing);
    const logChance = logChanceGivenOthers(oddsByNumber, weighing);
    const surprise = logChance - weighing.logAnything;
    if (worst === undefined || surprise < worst.surprise) worst = { weighing, oddsByNumber, logChance, surprise };
  }
  if (worst === undefined) return undefined;
  const { weighing, oddsByNumber, logChance, surprise } = worst;
  const contradicts =
    surprise < SURPRISE && (notOnThisSheet > CONTRADICTS || chanceOfSlip(oddsByNumber, weighing) > CONTRADICTS);
  return { observation: weighing.index, logChance, contradicts };
}

/** Odds of all hypotheses that give an observation the same chance. */
function summed(odds: Float64Array, { numbers, chance }: Weighing): Float64Array {
  const byNumber = new Float64Array(chance.length);
  for (let h = 0; h < odds.length; h++) byNumber[numbers[h]] += odds[h];
  return byNumber;
}

/** ln of an observation's chance given all the others: 1 / Σ P(h | all) / P(seen | h). */
function logChanceGivenOthers(oddsByNumber: Float64Array, { chance }: Weighing): number {
  let sum = 0;
  for (let n = 0; n < chance.length; n++) sum += oddsByNumber[n] / chance[n];
  return -Math.log(sum);
}

/** How likely it is, given all that was seen, that this was seen by a slip or a wrong answer. */
function chanceOfSlip(oddsByNumber: Float64Array, { chance, logSlip }: Weighing): number {
  const slip = Math.exp(logSlip);
  let sum = 0;
  for (let n = 0; n < chance.length; n++) sum += oddsByNumber[n] * Math.min(1, slip / chance[n]);
  return sum;
}
