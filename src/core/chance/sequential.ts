import { binomialLogPmf } from "./binomial.ts";
import { logSumExp } from "./logs.ts";

/** What a sequential test is to tell apart: shares of operations that fail, and how often it may err. */
export interface SequentialAim {
  /** A part that fails this often is good enough ... */
  readonly good: number;
  /** ... and one that fails this often is not. */
  readonly bad: number;
  /** Chance of refusing a good one, and of taking a bad one. */
  readonly falseAlarm: number;
  readonly miss: number;
}

/**
 * Wald's sequential test: after n operations take the part at `accept` failures or fewer, refuse it at `reject` or more,
 * else go on. An answer that n operations cannot give yet is `undefined`.
 *
 * @source A. Wald, "Sequential Tests of Statistical Hypotheses" (1945); NIST/SEMATECH e-Handbook 6.2.6
 */
export function sequentialBounds(
  { good, bad, falseAlarm, miss }: SequentialAim,
  n: number,
): { readonly accept?: number; readonly reject?: number } {
  if (!(0 < good && good < bad && bad < 1)) throw new RangeError(`no sequential test of ${good} against ${bad}`);
  const k = Math.log((bad * (1 - good)) / (good * (1 - bad)));
  const slope = Math.log((1 - good) / (1 - bad)) / k;
  const accept = Math.floor(slope * n - Math.log((1 - falseAlarm) / miss) / k);
  const reject = Math.ceil(slope * n + Math.log((1 - miss) / falseAlarm) / k);
  return { ...(accept < 0 ? {} : { accept }), ...(reject > n ? {} : { reject }) };
}

/**
 * Fewest operations that show a reliability with this confidence when at most `failures` of them fail.
 *
 * @source success run: R^n ≤ 1 − C where none fails; else the binomial distribution
 */
export function operationsToShow(reliability: number, confidence: number, failures = 0): number {
  if (!(reliability > 0 && reliability < 1 && confidence > 0 && confidence < 1)) {
    throw new RangeError(`nothing shows a reliability of ${reliability} with confidence ${confidence}`);
  }
  const limit = Math.log1p(-confidence);
  const atMost = (n: number): number =>
    logSumExp(Array.from({ length: failures + 1 }, (_, k) => binomialLogPmf(k, n, 1 - reliability)));
  let high = failures + 1;
  while (atMost(high) > limit) high *= 2;
  let low = failures;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (atMost(middle) > limit) low = middle;
    else high = middle;
  }
  return high;
}
