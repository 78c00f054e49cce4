import type { Problem } from "./problem.ts";

/** The best start of a fixed order of repairs: `order[0 .. repairs)`, then stop if causes are left. */
export interface Sequence {
  cost: number;
  repairs: number;
  readonly order: Int32Array;
}

/**
 * Repairs without tests: the likeliest per cost first, counting access not yet paid, given up where that is cheaper.
 * Best possible without groups; an upper bound with them. One instance holds its own work area.
 *
 * @source J. B. Kadane, H. A. Simon, "Optimal strategies for a class of constrained sequential problems" (1977), from memory
 */
export class RepairSequence {
  readonly #problem: Problem;
  readonly #open: Uint8Array;
  readonly #left: Int32Array;
  readonly result: Sequence;

  constructor(problem: Problem) {
    this.#problem = problem;
    this.#open = new Uint8Array(problem.groups);
    this.#left = new Int32Array(problem.causes);
    this.result = { cost: 0, repairs: 0, order: new Int32Array(problem.causes) };
  }

  /**
   * @param causes  live causes: the first `count` entries
   * @param weights by cause, not negative
   * @param open    flags by group
   * @returns the work area's result: its cost is for these weights as they are, not scaled to 1
   */
  plan(causes: Int32Array, count: number, weights: Float64Array, open: Uint8Array): Sequence {
    const { repairCost, repairGroup, groupCost, stop } = this.#problem;
    const left = this.#left;
    const opened = this.#open;
    opened.set(open);
    let weight = 0;
    for (let c = 0; c < count; c++) {
      left[c] = causes[c];
      weight += weights[causes[c]];
    }
    const result = this.result;
    let spent = 0;
    result.cost = stop === Number.POSITIVE_INFINITY ? stop : weight * stop;
    result.repairs = 0;
    for (let done = 0; done < count; done++) {
      let best = done;
      let bestRatio = -1;
      let bestCost = 0;
      for (let c = done; c < count; c++) {
        const i = left[c];
        const group = repairGroup[i];
        const cost = repairCost[i] + (group >= 0 && opened[group] === 0 ? groupCost[group] : 0);
        const ratio = cost > 0 ? weights[i] / cost : Number.POSITIVE_INFINITY;
        if (ratio > bestRatio || (ratio === bestRatio && i < left[best])) {
          best = c;
          bestRatio = ratio;
          bestCost = cost;
        }
      }
      const i = left[best];
      left[best] = left[done];
      left[done] = i;
      result.order[done] = i;
      spent += weight * bestCost;
      if (repairGroup[i] >= 0) opened[repairGroup[i]] = 1;
      weight = Math.max(0, weight - weights[i]);
      const last = done === count - 1;
      const cost = last ? spent : stop === Number.POSITIVE_INFINITY ? stop : spent + weight * stop;
      if (cost < result.cost) {
        result.cost = cost;
        result.repairs = done + 1;
      }
    }
    return result;
  }
}
