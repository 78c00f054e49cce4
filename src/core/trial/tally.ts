import { normalQuantile, studentQuantile } from "../chance/index.ts";

/** A figure with the interval that holds it 95 times in 100. */
export interface Interval {
  readonly value: number;
  readonly lo: number;
  readonly hi: number;
}

/** Two sums over one group of machines: what is shared out, and what it is shared by. */
export interface GroupSums {
  readonly top: number;
  readonly bottom: number;
}

/**
 * Ratio of two sums over groups that are drawn independently, while what is in one group is alike: the spread is taken
 * between groups. With a bottom that counts machines it is the mean of a machine.
 *
 * @returns no interval (NaN) from fewer than two groups
 * @source  ratio estimator over clusters: W. G. Cochran, Sampling Techniques, 3rd ed., 6.3 and 9A.2 (from memory)
 */
export function ratioOf(groups: readonly GroupSums[]): Interval {
  const m = groups.length;
  const whole = groups.reduce((sum, { bottom }) => sum + bottom, 0);
  const value = groups.reduce((sum, { top }) => sum + top, 0) / whole;
  if (m < 2 || whole === 0) return { value, lo: Number.NaN, hi: Number.NaN };
  const squares = groups.reduce((sum, { top, bottom }) => sum + (top - value * bottom) ** 2, 0);
  const half = (studentQuantile(0.975, m - 1) * Math.sqrt((m / (m - 1)) * squares)) / whole;
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
