import type { OutcomeTable } from "./case.ts";

/** How much a question tells of the hypotheses at all: mutual information, nats. Weights sum to 1. */
export function natsTold(table: OutcomeTable, weights: ArrayLike<number>): number {
  let sum = 0;
  for (const chance of table.chance) {
    let outcome = 0;
    for (let i = 0; i < weights.length; i++) outcome += weights[i] * chance[i];
    if (outcome <= 0) continue;
    for (let i = 0; i < weights.length; i++) {
      const p = chance[i];
      if (p > 0) sum += weights[i] * p * Math.log(p / outcome);
    }
  }
  return sum;
}
