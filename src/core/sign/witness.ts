import type { SignRule, WitnessOdds } from "../sheet/index.ts";
import type { Observation, Witness } from "./observation.ts";

/** Share of a miss that a person puts on the neighbouring level rather than farther off (from memory). */
const NEIGHBOUR_SHARE = 0.8;

/**
 * Chance of each answer from a witness, given the chances of each true answer.
 *
 * Yes or no: P(yes said) = false alarm + (hit − false alarm) · P(yes). Of several answers the right one is given with
 * chance `hit`; a miss falls on the neighbouring levels, or, where answers have no order, on all others alike.
 *
 * @param truth chance of each true answer, in the order of `sign.answers`; sums to 1
 */
export function saidBy(sign: SignRule, witness: Witness, truth: ArrayLike<number>): Float64Array {
  const odds = sign[witness];
  const said = new Float64Array(truth.length);
  for (let actual = 0; actual < truth.length; actual++) {
    const weight = truth[actual] ?? 0;
    if (weight === 0) continue;
    for (let answer = 0; answer < truth.length; answer++) {
      said[answer] = (said[answer] ?? 0) + weight * chanceSaid(sign, odds, actual, answer);
    }
  }
  return said;
}

function chanceSaid(sign: SignRule, odds: WitnessOdds, actual: number, answer: number): number {
  const count = sign.answers.length;
  if (count < 2) return 1;
  if (isYesNo(sign)) {
    const yes = actual === YES ? odds.hit : odds.falseAlarm;
    return answer === YES ? yes : 1 - yes;
  }
  const right = actual === 0 && hasQuietAnswer(sign) ? 1 - odds.falseAlarm : odds.hit;
  if (answer === actual) return right;
  if (sign.rule.kind !== "levels" || count === 2) return (1 - right) / (count - 1);
  const neighbours = [actual - 1, actual + 1].filter((level) => level >= 0 && level < count).length;
  const farther = count - 1 - neighbours;
  if (Math.abs(answer - actual) === 1) return ((1 - right) * (farther === 0 ? 1 : NEIGHBOUR_SHARE)) / neighbours;
  return ((1 - right) * (1 - NEIGHBOUR_SHARE)) / farther;
}

/** Index of "yes" among the answers of a yes-or-no sign. */
export const YES = 0;

export function isYesNo(sign: SignRule): boolean {
  return sign.rule.kind === "test" || sign.rule.kind === "table";
}

/** The first answer of these is "never" or "none": nothing happened, and a witness invents it only with a false alarm. */
function hasQuietAnswer(sign: SignRule): boolean {
  return sign.rule.kind === "when-first" || sign.rule.kind === "says";
}

const RANK: Readonly<Record<Witness, number>> = { told: 0, heard: 1, seen: 2 };

/** Word for a sign that is there on some runs and not on others; it may be given to any sign. */
export const SOMETIMES = "sometimes";

/**
 * Marks the observations that count. Of several answers to one sign only the best witness's last one does: what was seen
 * overrules what was heard, and that what was told. But one run that was seen does not overrule a "sometimes": it was
 * told of many runs, and that one may have been among the good.
 */
export function whichCount(observations: readonly Observation[]): readonly boolean[] {
  const best = new Map<string, number>();
  const lastWord = new Map<string, number>();
  for (const [i, observation] of observations.entries()) {
    if (observation.kind !== "sign") continue;
    const before = observations[best.get(observation.sign) ?? -1];
    const overruled = before?.kind === "sign" && RANK[before.witness] > RANK[observation.witness];
    if (!overruled) best.set(observation.sign, i);
    lastWord.set(`${observation.witness} ${observation.sign}`, i);
  }
  return observations.map((observation, i) => {
    if (observation.kind !== "sign" || best.get(observation.sign) === i) return true;
    const { sign, answer, witness } = observation;
    const counted = observations[best.get(sign) ?? -1];
    const oneRun = counted?.kind === "sign" && counted.answer !== SOMETIMES && RANK[counted.witness] > RANK[witness];
    return answer === SOMETIMES && oneRun && lastWord.get(`${witness} ${sign}`) === i;
  });
}
