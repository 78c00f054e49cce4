import { betaQuantile } from "./beta.ts";
import { deviance, stirlingError } from "./gamma.ts";

/**
 * ln of the chance of k successes in n trials of chance p each.
 *
 * @source C. Loader, "Fast and accurate computation of binomial probabilities" (2000)
 */
export function binomialLogPmf(k: number, n: number, p: number): number {
  if (!(p >= 0 && p <= 1) || !Number.isInteger(k) || !Number.isInteger(n) || n < 0) {
    throw new Error(`no binomial chance of ${k} in ${n} at ${p}`);
  }
  if (k < 0 || k > n) return Number.NEGATIVE_INFINITY;
  if (p === 0) return k === 0 ? 0 : Number.NEGATIVE_INFINITY;
  if (p === 1) return k === n ? 0 : Number.NEGATIVE_INFINITY;
  if (k === 0) return n * Math.log1p(-p);
  if (k === n) return n * Math.log(p);
  const rest = n - k;
  const errors = stirlingError(n) - stirlingError(k) - stirlingError(rest);
  const spread = 0.5 * Math.log(n / (2 * Math.PI * k * rest));
  return errors + spread - deviance(k, n * p) - deviance(rest, n * (1 - p));
}

/**
 * Exact bounds on the chance of a failure after `bad` failures in n operations, each tail with (1 − coverage)/2.
 *
 * @source C. Clopper, E. Pearson, Biometrika 26 (1934)
 */
export function clopperPearson(bad: number, n: number, coverage: number): { readonly lo: number; readonly hi: number } {
  const tail = (1 - coverage) / 2;
  return {
    lo: bad === 0 ? 0 : betaQuantile(tail, bad, n - bad + 1).x,
    // upper bound through the complement, which keeps its digits when all operations failed
    hi: bad === n ? 1 : betaQuantile(tail, n - bad, bad + 1).complement,
  };
}
