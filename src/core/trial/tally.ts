import { normalQuantile, studentQuantile } from "../chance/index.ts";

/** A figure with the interval that holds it 95 times in 100. */
export interface Interval {
  readonly value: number;
  readonly lo: number;
  readonly hi: number;
}

/**
 * Mean of one number a machine, where machines come in groups of one type: groups are drawn independently, machines of
 * one group are alike, so the spread is taken between groups.
 *
 * @param groups  numbers by group
 * @source        ratio estimator of a mean over clusters: Cochran, Sampling Techniques, 3rd ed., 6.3 and 9A.2 (from memory)
 */
export function meanOf(groups: readonly (readonly number[])[]): Interval {
  const filled = groups.filter((group) => group.length > 0);
  const count = filled.reduce((n, group) => n + group.length, 0);
  const sums = filled.map((group) => group.reduce((sum, x) => sum + x, 0));
  return ratioOf(
    sums,
    filled.map((group) => group.length),
    count,
  );
}

/** Ratio of two sums over independent groups, with a t interval over groups. */
function ratioOf(tops: readonly number[], bottoms: readonly number[], count: number): Interval {
  const m = tops.length;
  const value = tops.reduce((sum, x) => sum + x, 0) / count;
  if (m < 2) return { value, lo: Number.NaN, hi: Number.NaN };
  const squares = tops.reduce((sum, top, g) => sum + (top - value * bottoms[g]) ** 2, 0);
  const half = (studentQuantile(0.975, m - 1) * Math.sqrt((m / (m - 1)) * squares)) / count;
  return { value, lo: value - half, hi: value + half };
}

/**
 * Share of successes in so many trials.
 *
 * @source E. B. Wilson, "Probable inference, the law of succession, and statistical inference", JASA 22 (1927)
 */
export function shareOf(successes: number, trials: number): Interval {
  if (trials === 0) return { value: Number.NaN, lo: 0, hi: 1 };
  const z = normalQuantile(0.975);
  const p = successes / trials;
  const middle = (p + (z * z) / (2 * trials)) / (1 + (z * z) / trials);
  const half = (z * Math.sqrt((p * (1 - p)) / trials + (z * z) / (4 * trials * trials))) / (1 + (z * z) / trials);
  return { value: p, lo: Math.max(0, middle - half), hi: Math.min(1, middle + half) };
}
