import type { Belief, Live } from "./case.ts";

/** Share of the odds that the living hypotheses hold together, and how many they are at most. */
const MASS = 0.999;
const AT_MOST = 300;

/** The likeliest hypotheses, until they hold nearly all the odds; their weights are made to sum to 1. */
export function liveHypotheses(
  belief: Pick<Belief, "logPosterior">,
  options: { readonly mass?: number; readonly atMost?: number } = {},
): Live {
  const { logPosterior } = belief;
  const floor = Math.log(1e-9);
  const order: number[] = [];
  for (let h = 0; h < logPosterior.length; h++) if (logPosterior[h] > floor) order.push(h);
  order.sort((a, b) => logPosterior[b] - logPosterior[a] || a - b);
  const kept: number[] = [];
  let mass = 0;
  for (const h of order) {
    if (kept.length >= (options.atMost ?? AT_MOST) || mass >= (options.mass ?? MASS)) break;
    kept.push(h);
    mass += Math.exp(logPosterior[h]);
  }
  return {
    hypotheses: Int32Array.from(kept),
    weights: Float64Array.from(kept, (h) => Math.exp(logPosterior[h]) / mass),
  };
}
