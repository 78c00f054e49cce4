import { codeOf, type KeyLayout } from "./key.ts";
import type { LiveSet } from "./live-set.ts";
import type { Problem } from "./problem.ts";

/**
 * What remedies that may fail put into a lower bound: the cost of each cause once it is known, and how far a remedy's own
 * cost pays for guessing. Both loosen the truth where that keeps the proof short: see `PriceBound`.
 */
export class RemedyCosts {
  readonly #problem: Problem;
  readonly #layout: KeyLayout;
  readonly #guess: Float64Array;
  readonly #shares: Float64Array;

  constructor(problem: Problem, layout: KeyLayout) {
    this.#problem = problem;
    this.#layout = layout;
    this.#guess = new Float64Array(problem.causes);
    this.#shares = new Float64Array(problem.causes);
  }

  /** Least cost of a known cause if every remedy could be tried again and again. */
  cure(i: number, open: Uint8Array, alsoOpen = -1): number {
    const { remediesOf, testCost, testGroup, groupCost, success } = this.#problem;
    let least = Number.POSITIVE_INFINITY;
    for (const j of remediesOf[i]) {
      const group = testGroup[j];
      const access = group >= 0 && group !== alsoOpen && open[group] === 0 ? groupCost[group] : 0;
      least = Math.min(least, testCost[j] / success[j] + access);
    }
    return least;
  }

  /**
   * Σ w_i times the least cost of each cause once it is known: untried remedies in the order of cost for their chance,
   * after the least access that any of them needs, or stopping.
   */
  known(live: LiveSet, key: Int32Array, weights: Float64Array, open: Uint8Array): number {
    const {
      causes: n,
      remediesOf,
      repairCost,
      repairGroup,
      testCost,
      testGroup,
      groupCost,
      stop,
      chance,
      outcomeStart,
    } = this.#problem;
    let sum = 0;
    for (const i of live.causes) {
      let left = Math.min(stop, repairCost[i]);
      const own = repairGroup[i];
      let access = own >= 0 && open[own] === 0 ? groupCost[own] : 0;
      if (repairCost[i] === Number.POSITIVE_INFINITY) access = Number.POSITIVE_INFINITY;
      const list = remediesOf[i];
      for (let r = list.length - 1; r >= 0; r--) {
        const j = list[r];
        if (codeOf(this.#layout, key, j) !== 0) continue;
        const group = testGroup[j];
        access = Math.min(access, group >= 0 && open[group] === 0 ? groupCost[group] : 0);
        left = Math.min(left, testCost[j] + (1 - chance[outcomeStart[j] * n + i]) * left);
      }
      sum += weights[i] * Math.min(stop, left + (left < stop ? access : 0));
    }
    return sum;
  }

  /** By cause: its share, by weight, in the guess of every remedy that may mend it. */
  guesses(live: Int32Array, w: Float64Array, price: number): Float64Array {
    const { remedies, covers, testCost, needless, success } = this.#problem;
    const guess = this.#guess.fill(0);
    live.forEach((i, c) => {
      guess[i] = w[c];
    });
    const shares = this.#shares.fill(1);
    for (const j of remedies) {
      let meant = 0;
      for (const i of covers[j]) meant += guess[i];
      const whole = -Math.expm1(-(testCost[j] + needless[j]) / (success[j] * price));
      for (const i of covers[j]) if (guess[i] > 0) shares[i] = Math.min(shares[i], (whole * guess[i]) / meant);
    }
    return shares;
  }
}
