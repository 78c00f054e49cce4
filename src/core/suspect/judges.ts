import type { SingleShown } from "../meter/index.ts";
import type { SignRule } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Exactness } from "./exactness.ts";
import type { Foresight } from "./foresight.ts";
import { type Judge, Judged, type Singles } from "./hypothesis-chance.ts";
import { judgeCount } from "./judge-count.ts";
import { judgeLook } from "./judge-look.ts";
import { judgeReading, type ReadingSeen, unknowable } from "./judge-reading.ts";
import { judgeAnswerGiven } from "./judge-sign.ts";
import type { Entry } from "./prior.ts";

/** Chance of one thing that was seen, by hypothesis, whatever sort of observation it is. */
export interface Chances {
  of(entry: Entry): Float64Array;
  singles(candidate: number): Singles;
  readonly anything: Float64Array;
}

/** A slot answered by a look is wrong this often (from memory). */
const WRONG_VARIANT = 0.005;

/** Judges what was seen: the chances have one entry. */
export function judgedSeen(foresights: readonly Foresight[], exactness: Exactness, seen: Observation): Chances {
  const on = <Shown>(make: (foresight: Foresight) => Judge<Shown>): Chances => new Judged(foresights, exactness, make);
  switch (seen.kind) {
    case "sign":
      return on((foresight) => signJudge(foresight, seen.sign, 1, (sign) => judgeAnswerGiven(foresight, sign, seen)));
    case "look":
      return on((foresight) => onlyOne(judgeLook(foresight, seen), seen.found === "bad" ? 0 : 1));
    case "answer": {
      const variants = variantsOf(foresights, seen.slot);
      const at = variants.indexOf(seen.variant);
      return on((foresight) => {
        const chances = variantChances(foresight, seen.slot, variants);
        return unknowable(Float64Array.of(at < 0 ? WRONG_VARIANT : chances[at]));
      });
    }
    case "count":
      return on((foresight) => onlyOne(judgeCount(foresight, seen.probe, seen.of), seen.good));
    case "reading":
      return on((foresight) => shownJudge(foresight, seen));
  }
}

function shownJudge(foresight: Foresight, seen: ReadingSeen) {
  const { shown } = seen;
  return shown.kind === "count"
    ? onlyOne(judgeCount(foresight, seen.probe, shown.of), shown.good)
    : judgeReading(foresight, seen, shown satisfies SingleShown);
}

/** A sign that a variant does not have says nothing for or against it. */
export function signJudge(
  foresight: Foresight,
  id: string,
  outcomes: number,
  judge: (sign: SignRule) => Judge<ArrayLike<number>>,
): Judge<ArrayLike<number>> {
  const sign = foresight.machine.signs.find((one) => one.id === id);
  if (sign !== undefined) return judge(sign);
  const even = new Float64Array(outcomes).fill(1 / Math.max(outcomes, 2));
  return { foresee: () => [], same: () => true, chances: () => even, anything: even, costs: "nothing" };
}

/** None, some, all of n. */
export function folded<Shown>(judge: Judge<Shown>, of: number): Judge<Shown> {
  return reshaped(judge, (all) => Float64Array.of(all[0], 1 - all[0] - all[of], all[of]));
}

/** Keeps one outcome of a judge. */
function onlyOne<Shown>(judge: Judge<Shown>, outcome: number): Judge<Shown> {
  return reshaped(judge, (all) => all.slice(outcome, outcome + 1));
}

function reshaped<Shown>(judge: Judge<Shown>, shape: (all: Float64Array) => Float64Array): Judge<Shown> {
  const { comesAndGoes } = judge;
  return {
    ...judge,
    chances: (shown) => shape(judge.chances(shown)),
    ...(comesAndGoes === undefined
      ? {}
      : { comesAndGoes: (failsOn, shown, healthy) => shape(comesAndGoes(failsOn, shown, healthy)) }),
    anything: shape(judge.anything),
  };
}

/** Answer to a slot that a machine does not have: its question has none of the variants. */
export const NO_SUCH_SLOT = "none of these";

/** Variants of a slot among the candidates, and "none of these" where some candidate has no such slot. */
export function variantsOf(foresights: readonly Foresight[], slot: string): readonly string[] {
  return [...new Set(foresights.map(({ machine }) => machine.choice.get(slot) ?? NO_SUCH_SLOT))];
}

/** Chance of each answer to a slot on one candidate. */
export function variantChances({ machine }: Foresight, slot: string, variants: readonly string[]): Float64Array {
  const right = machine.choice.get(slot) ?? NO_SUCH_SLOT;
  const wrong = variants.length > 1 ? WRONG_VARIANT / (variants.length - 1) : 0;
  return Float64Array.from(variants, (variant) => (variant === right ? 1 - wrong * (variants.length - 1) : wrong));
}
