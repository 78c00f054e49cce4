import { codeOf, type KeyLayout } from "./key.ts";
import type { Problem } from "./problem.ts";

/**
 * The best start of a fixed order of repairs: `order[0 .. repairs)`, causes (or tests that are remedies, where the problem
 * has those), then stop if causes are left.
 */
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
  readonly #layout: KeyLayout;
  readonly #weights: Float64Array;
  readonly #untried: Int32Array;
  readonly result: Sequence;

  constructor(problem: Problem, layout: KeyLayout) {
    this.#problem = problem;
    this.#layout = layout;
    this.#weights = new Float64Array(problem.causes);
    this.#untried = new Int32Array(problem.remedies.length);
    this.#open = new Uint8Array(problem.groups);
    this.#left = new Int32Array(problem.causes);
    this.result = { cost: 0, repairs: 0, order: new Int32Array(problem.causes + problem.remedies.length) };
  }

  /**
   * @param causes  live causes: the first `count` entries
   * @param weights by cause, not negative
   * @param open    flags by group
   * @param key     of the situation: which remedies have been tried
   * @param trying  a remedy that counts as tried too, or -1
   * @param limit   what comes to this or more need not be told exactly
   * @returns the work area's result: its cost is for these weights as they are, not scaled to 1
   */
  plan(
    causes: Int32Array,
    count: number,
    weights: Float64Array,
    open: Uint8Array,
    key: Int32Array,
    trying = -1,
    limit = Number.POSITIVE_INFINITY,
  ): Sequence {
    if (this.#problem.remedies.length > 0) return this.#remedies(causes, count, weights, open, key, trying);
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
      // What is spent only grows: from here on nothing can come out cheaper.
      if (spent >= result.cost || spent >= limit) break;
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

  /** Remedies that may fail: each time the one that mends most for its cost, until stopping is cheaper. */
  #remedies(
    causes: Int32Array,
    count: number,
    weights: Float64Array,
    open: Uint8Array,
    key: Int32Array,
    trying: number,
  ): Sequence {
    const {
      remedies,
      testCost,
      testGroup,
      extra,
      covers,
      groupCost,
      stop,
      chance,
      outcomeStart,
      causes: n,
    } = this.#problem;
    const opened = this.#open;
    const untried = this.#untried;
    const left = this.#weights.fill(0);
    opened.set(open);
    let weight = 0;
    for (let c = 0; c < count; c++) {
      left[causes[c]] = weights[causes[c]];
      weight += weights[causes[c]];
    }
    let many = 0;
    for (const j of remedies) if (j !== trying && codeOf(this.#layout, key, j) === 0) untried[many++] = j;
    const result = this.result;
    let spent = 0;
    result.cost = weight * stop;
    result.repairs = 0;
    let done = 0;
    while (many > 0 && spent < result.cost) {
      let best = -1;
      let bestRatio = 0;
      let bestCost = 0;
      for (let r = 0; r < many; r++) {
        const j = untried[r];
        let mends = 0;
        let cost = 0;
        for (const i of covers[j]) mends += left[i] * chance[outcomeStart[j] * n + i];
        if (mends === 0) continue;
        for (let c = 0; c < count; c++) cost += left[causes[c]] * extra[j * n + causes[c]];
        const group = testGroup[j];
        cost += weight * (testCost[j] + (group >= 0 && opened[group] === 0 ? groupCost[group] : 0));
        const ratio = cost > 0 ? mends / cost : Number.POSITIVE_INFINITY;
        if (ratio <= bestRatio) continue;
        best = r;
        bestRatio = ratio;
        bestCost = cost;
      }
      if (best < 0) break;
      const j = untried[best];
      untried[best] = untried[--many];
      spent += bestCost;
      if (testGroup[j] >= 0) opened[testGroup[j]] = 1;
      for (const i of covers[j]) {
        const mended = left[i] * chance[outcomeStart[j] * n + i];
        left[i] -= mended;
        weight -= mended;
      }
      weight = Math.max(0, weight);
      result.order[done++] = j;
      if (spent + weight * stop >= result.cost) continue;
      result.cost = spent + weight * stop;
      result.repairs = done;
    }
    return result;
  }
}
