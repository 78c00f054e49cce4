import type { Rated } from "./rated.ts";

/**
 * Standard uncertainty of a rated value about its nominal, in its own unit: 0 for an exact value; half the limit for a
 * tolerance (limits at two standard deviations; unequal limits by the root mean square of both sides); the standard
 * deviation of a log-uniform range, or of a uniform one where the range holds zero or less.
 *
 * @source GUM 4.3 (type B evaluation); that a tolerance is two standard deviations: common practice, no source
 */
export function standardUncertainty(rated: Rated): number {
  const { lo, hi, nominal, spread } = rated;
  if (spread === "exact" || lo === hi) return 0;
  if (spread === "tolerance") return Math.hypot((nominal - lo) / 2, (hi - nominal) / 2) / Math.SQRT2;
  if (lo <= 0) return (hi - lo) / Math.sqrt(12);
  const log = Math.log(hi / lo);
  const mean = (hi - lo) / log;
  const square = ((hi - lo) * (hi + lo)) / (2 * log);
  return Math.sqrt(Math.max(0, square - mean * mean));
}

/** Is the spread too wide for first-order propagation: limits beyond ±30 % of the nominal value? */
export function isWide(rated: Rated): boolean {
  if (rated.spread === "exact") return false;
  const limit = 0.3 * Math.abs(rated.nominal);
  return rated.hi - rated.nominal > limit || rated.nominal - rated.lo > limit;
}
