import type { PredictedTerm } from "./prediction.ts";
import { STRENGTH_SPREAD } from "./severity.ts";

/** Spread about one strength of a fault, from how the reading changes to the strengths beside it. */
export function strengthSigma(values: readonly number[], s: number): number {
  const known = [s - 1, s, s + 1].filter((i) => Number.isFinite(values[i]));
  if (known.length < 2) return 0;
  const first = known[0];
  const last = known[known.length - 1];
  return (Math.abs(values[last] - values[first]) / (last - first)) * STRENGTH_SPREAD;
}

/** Spread of a pair by one of its two, from how the reading changes when that one is a step stronger. */
export function strongerSigma(stronger: number, asWritten: number): number {
  return Number.isFinite(stronger) ? 0.6 * Math.abs(stronger - asWritten) : 0;
}

/** One term a point of a wide number; each covers part of the way to its neighbours. */
export function spreadOver(
  points: readonly { readonly weight: number; readonly value: number }[],
  weight: number,
  middle: number,
  sigma: number,
): readonly PredictedTerm[] {
  return points.map(({ weight: share, value }, i): PredictedTerm => {
    if (!Number.isFinite(value)) return { kind: "open", weight: weight * share };
    const beside = [points[i - 1], points[i + 1]].flatMap((point) =>
      point !== undefined && Number.isFinite(point.value) ? [Math.abs(point.value - value)] : [],
    );
    const gap = beside.length === 0 ? 0 : 0.4 * Math.min(...beside);
    const own = middle === 0 ? sigma : (sigma * value) / middle;
    return { kind: "value", weight: weight * share, mean: value, sigma: Math.hypot(own, gap) };
  });
}

/** Do two readings differ by less than any meter shows? */
export function alike(a: number, b: number): boolean {
  if (!Number.isFinite(a) || !Number.isFinite(b)) return a === b;
  return Math.abs(a - b) <= 1e-9 * Math.abs(b);
}
