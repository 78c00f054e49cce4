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

/** How far a point's kernel reaches, as a share of the way to its nearest neighbour (from memory). */
const REACH = 0.4;
/** The kernels take at most this share of the variance of the points, where one point has nearly all the weight. */
const MOST_BLUR = 0.5;

/**
 * One term a point of a wide number; each covers part of the way to its neighbours. The points move toward their mean by
 * as much as the kernels widen them, so that mean and variance stay those of the quadrature.
 *
 * @param middle the reading at the number as rated
 * @param sigma spread of that reading by everything else
 * @source M. West, "Approximating posterior distributions by mixtures", J. R. Stat. Soc. B 55 (1993) 409-422: kernels at
 * locations shrunk by a = sqrt(1 - h^2), from memory; here h^2 is the kernels' share of the points' variance
 */
export function spreadOver(
  points: readonly { readonly weight: number; readonly value: number }[],
  weight: number,
  middle: number,
  sigma: number,
): readonly PredictedTerm[] {
  const gaps = points.map(({ value }, i) => {
    const beside = [points[i - 1], points[i + 1]].flatMap((point) =>
      point !== undefined && Number.isFinite(point.value) ? [Math.abs(point.value - value)] : [],
    );
    return beside.length === 0 || !Number.isFinite(value) ? 0 : REACH * Math.min(...beside);
  });
  const { mean, variance, blur } = momentsOf(points, gaps);
  const narrower = Math.sqrt(Math.min(1, (MOST_BLUR * variance) / (blur || 1)));
  const shrink = variance === 0 ? 1 : Math.sqrt(1 - (narrower ** 2 * blur) / variance);
  return points.map(({ weight: share, value }, i): PredictedTerm => {
    if (!Number.isFinite(value)) return { kind: "open", weight: weight * share };
    const own = middle === 0 ? sigma : (sigma * value) / middle;
    return {
      kind: "value",
      weight: weight * share,
      mean: mean + shrink * (value - mean),
      sigma: Math.hypot(own, narrower * gaps[i]),
    };
  });
}

/** Mean and variance of the points that are not open, and the mean square of their kernels. */
function momentsOf(
  points: readonly { readonly weight: number; readonly value: number }[],
  gaps: readonly number[],
): { mean: number; variance: number; blur: number } {
  const finite = points.flatMap(({ weight, value }, i) =>
    Number.isFinite(value) ? [{ weight, value, gap: gaps[i] }] : [],
  );
  const whole = finite.reduce((sum, { weight }) => sum + weight, 0) || 1;
  const over = (of: (point: { value: number; gap: number }) => number): number =>
    finite.reduce((sum, point) => sum + point.weight * of(point), 0) / whole;
  const mean = over(({ value }) => value);
  return { mean, variance: over(({ value }) => (value - mean) ** 2), blur: over(({ gap }) => gap * gap) };
}

/** Do two readings differ by less than any meter shows? */
export function alike(a: number, b: number): boolean {
  if (!Number.isFinite(a) || !Number.isFinite(b)) return a === b;
  return Math.abs(a - b) <= 1e-9 * Math.abs(b);
}
