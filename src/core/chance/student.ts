import { betaCdf, betaQuantile } from "./beta.ts";
import { normalQuantile, normalSf } from "./normal.ts";

/** P(T > t) of Student's distribution; `degrees` may be any number above zero, or Infinity. */
export function studentSf(t: number, degrees: number): number {
  if (degrees === Number.POSITIVE_INFINITY) return normalSf(t);
  const tail = 0.5 * betaCdf(degrees / (degrees + t * t), degrees / 2, 0.5);
  return t > 0 ? tail : 1 - tail;
}

/**
 * Quantile of Student's distribution. Two-sided coverage c is at p = (1 + c)/2.
 *
 * @source GUM table G.2
 */
export function studentQuantile(p: number, degrees: number): number {
  if (!(degrees > 0)) throw new Error(`degrees of freedom lie above zero, got ${degrees}`);
  if (degrees === Number.POSITIVE_INFINITY) return normalQuantile(p);
  const tail = Math.min(p, 1 - p);
  const { x, complement } = betaQuantile(2 * tail, degrees / 2, 0.5);
  const size = Math.sqrt((degrees * complement) / x);
  return p < 0.5 ? -size : size;
}
