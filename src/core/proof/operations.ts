import { clopperPearson, type SequentialAim, sequentialBounds } from "../chance/index.ts";

/** A repaired contact, lock or drive that was operated again and again. */
export interface OperationsProof {
  /** "not mended": more failures than may be taken. */
  readonly says: "enough" | "go on" | "not mended";
  /** Bounds on the share of operations that fail, each 95 % sure by itself. */
  readonly failsAtLeast: number;
  readonly failsAtMost: number;
  /** Fewest further operations that would be enough, if every one of them is good. */
  readonly more?: number;
}

/** Tells one operation in a hundred failing from one in five; errs in 1 of 20 either way. Our own choice, no source. */
export const USUAL_AIM: SequentialAim = { good: 0.01, bad: 0.2, falseAlarm: 0.05, miss: 0.05 };

/** How many are asked for: as many as a sequential test needs; or a number of them, every one good (a part for the shelf). */
export type OperationsRule = SequentialAim | { readonly allGoodOf: number };

/**
 * What `of` operations, `good` of them good, prove. Only their number is known, not their order: a bound that was crossed
 * on the way and left again is not seen.
 *
 * @throws  RangeError where the counts are none, or the rule tells nothing apart
 * @source  A. Wald, "Sequential Tests of Statistical Hypotheses" (1945); C. Clopper, E. Pearson, Biometrika 26 (1934)
 * @example proveByOperations(10, 10) // says "go on", failsAtMost 0.259, more 4
 */
export function proveByOperations(good: number, of: number, rule: OperationsRule = USUAL_AIM): OperationsProof {
  if (!Number.isInteger(good) || !Number.isInteger(of) || good < 0 || good > of) {
    throw new RangeError(`${good} good of ${of} is no count`);
  }
  const bad = of - good;
  // One tail of 5 %: a two-sided interval of 90 % leaves that on either side.
  const { lo, hi } = of === 0 ? { lo: 0, hi: 1 } : clopperPearson(bad, of, 0.9);
  const bounds = { failsAtLeast: lo, failsAtMost: hi };
  if ("allGoodOf" in rule) {
    if (bad > 0) return { says: "not mended", ...bounds };
    return of >= rule.allGoodOf
      ? { says: "enough", ...bounds }
      : { says: "go on", ...bounds, more: rule.allGoodOf - of };
  }
  const { accept, reject } = sequentialBounds(rule, of);
  if (accept !== undefined && bad <= accept) return { says: "enough", ...bounds };
  if (reject !== undefined && bad >= reject) return { says: "not mended", ...bounds };
  return { says: "go on", ...bounds, more: moreNeeded(bad, of, rule) };
}

function moreNeeded(bad: number, of: number, aim: SequentialAim): number {
  let more = 1;
  while ((sequentialBounds(aim, of + more).accept ?? -1) < bad) more++;
  return more;
}
