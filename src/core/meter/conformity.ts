import { logNormalInterval, logNormalPdf, normalCdf, normalSf } from "../chance/index.ts";
import { type Estimate, type Limits, uncertainty } from "../quantity/index.ts";

export interface Verdict {
  /** Chance that the true value lies within the limits, given the reading. */
  readonly probability: number;
  readonly says: "good" | "bad" | "too close to say";
}

/**
 * Probability of conformity of a measured value with its limits, and what may be said of it: good or bad only when that is
 * `surely` certain.
 *
 * @source JCGM 106:2012, 7.2 to 7.4 (normal distribution, one-sided and two-sided limits)
 */
export function conformity(estimate: Estimate, limits: Limits, surely = 0.95): Verdict {
  const probability = within(estimate.value, uncertainty(estimate), limits);
  const says = probability >= surely ? "good" : probability <= 1 - surely ? "bad" : "too close to say";
  return { probability, says };
}

function within(mean: number, u: number, { lo, hi }: Limits): number {
  if (u === 0 || !Number.isFinite(mean)) return mean >= lo && mean <= hi ? 1 : 0;
  return Math.exp(logNormalInterval((lo - mean) / u, (hi - mean) / u));
}

/** Limits drawn in by a guard band on either side that is finite: what may be accepted without asking more.
 * @source JCGM 106:2012, 8.3 */
export function guarded(limits: Limits, band: number): Limits {
  return { lo: limits.lo + band, hi: limits.hi - band };
}

/** Chances of accepting a bad item and of refusing a good one. */
export interface Risks {
  readonly falsePass: number;
  readonly falseAlarm: number;
}

/**
 * Global risks of a test: items are normal about `mean` with standard deviation `spread`, the measurement has standard
 * uncertainty `u`, an item is good within `good` and accepted when its reading lies within `accepted`.
 *
 * @source JCGM 106:2012, 9.5 (Simpson's rule over the items)
 */
export function risksOf(mean: number, spread: number, u: number, good: Limits, accepted: Limits): Risks {
  const accept = (x: number): number => Math.exp(logNormalInterval((accepted.lo - x) / u, (accepted.hi - x) / u));
  const mass = (lo: number, hi: number, of: (x: number) => number): number => {
    const from = Math.max(lo, mean - 9 * spread);
    const to = Math.min(hi, mean + 9 * spread);
    if (!(from < to)) return 0;
    const steps = 2000;
    const h = (to - from) / steps;
    let sum = 0;
    for (let i = 0; i <= steps; i++) {
      const x = from + i * h;
      const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
      sum += weight * of(x) * Math.exp(logNormalPdf((x - mean) / spread));
    }
    return (sum * h) / (3 * spread);
  };
  return {
    falsePass: mass(Number.NEGATIVE_INFINITY, good.lo, accept) + mass(good.hi, Number.POSITIVE_INFINITY, accept),
    falseAlarm: mass(good.lo, good.hi, (x) => 1 - accept(x)),
  };
}

/** Chance that a reading falls within limits when the true value is `mean` with `sigma` all told: the false-pass rate of a bad part. */
export function passChance(mean: number, sigma: number, limits: Limits): number {
  if (!Number.isFinite(mean)) return mean <= limits.hi && mean >= limits.lo ? 1 : 0;
  if (sigma === 0) return mean >= limits.lo && mean <= limits.hi ? 1 : 0;
  if (limits.lo === Number.NEGATIVE_INFINITY) return normalCdf((limits.hi - mean) / sigma);
  if (limits.hi === Number.POSITIVE_INFINITY) return normalSf((limits.lo - mean) / sigma);
  return Math.exp(logNormalInterval((limits.lo - mean) / sigma, (limits.hi - mean) / sigma));
}
