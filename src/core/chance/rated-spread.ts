import type { Rated } from "../quantity/index.ts";
import { normalQuantile } from "./normal.ts";
import { gaussHermite, gaussLegendre, type Rule } from "./quadrature.ts";
import type { Random } from "./random.ts";

/**
 * Quantile of a rated value. Its median is the nominal value: a tolerance is normal on either side with its limit at two
 * standard deviations, a range log-uniform (uniform where it holds zero or less).
 */
export function quantileOf(rated: Rated, p: number): number {
  if (rated.spread === "exact") return rated.nominal;
  return rated.spread === "tolerance" ? atDeviation(rated, normalQuantile(p)) : atShare(rated, p);
}

/** A few values with weights that stand for the whole spread, where first-order propagation would not do. */
export function quadrature(rated: Rated, n: number): Rule {
  if (rated.spread === "exact" || rated.lo === rated.hi) return { points: [rated.nominal], weights: [1] };
  const normal = rated.spread === "tolerance";
  const rule = normal ? gaussHermite(n) : gaussLegendre(n);
  return {
    points: rule.points.map((x) => (normal ? atDeviation(rated, x) : atShare(rated, x))),
    weights: rule.weights,
  };
}

/** One value drawn from the spread. */
export function draw(rated: Rated, random: Random): number {
  if (rated.spread === "exact") return rated.nominal;
  return rated.spread === "tolerance" ? atDeviation(rated, random.normal()) : atShare(rated, random.uniform());
}

function atDeviation({ nominal, lo, hi }: Rated, z: number): number {
  return nominal + 0.5 * z * (z < 0 ? nominal - lo : hi - nominal);
}

function atShare({ lo, hi }: Rated, p: number): number {
  return lo > 0 ? lo * (hi / lo) ** p : lo + p * (hi - lo);
}
