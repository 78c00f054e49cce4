import { codeOf, type KeyLayout } from "./key.ts";
import type { LiveSet } from "./live-set.ts";
import type { Problem } from "./problem.ts";
import { RemedyCosts } from "./remedy-costs.ts";

/** Steps of the price in the search for the best one. */
const STEP = 1.5;
/** Most steps one way: a hint is near, and any price is a bound. */
const MOST_STEPS = 40;

/**
 * A lower bound on the expected cost of a state, from a price `λ` on a nat of information about the cause.
 *
 * Expected cost = Σ w_i h_i + waste, with h_i the cost in hindsight (own repair, or stop). The waste is at least
 *
 *     Φ = λ Σ w_i ln(1/w_i) + λ Σ w_i ln(κ ν_i) − Σ_tests Σ_i w_i max(0, λ D_ji − t_ji)
 *
 * because no action pays off more nats, at that price, than it costs: a test yields at most Σ w_i D_ji nats, D_ji the
 * divergence of its outcomes under cause i from any fixed law; a repair at cost c_i pays for its guess while
 * ν_i + exp(−c_i/λ) ≤ 1; κ keeps Φ under the cost of stopping; t_ji is the test's cost, with an equal share of its group's
 * where the group is closed and cause i is not of it. Two laws are tried a test: the predicted one and one of capacity.
 * A remedy r that mends any of the causes C_r with chance up to s is bounded as if it could be tried again and again: cost
 * c/s for a known cause, and Σ_{C_r} ν_i ≤ 1 − exp(−c/(s λ)) in all, since its success tells at most s times what naming
 * "one of C_r" would; c counts what a needless try loses, at the
 * least. Apart from that, Σ w_i times the cost of curing each known cause by
 * the remedies still untried is a bound too, and the better of both is taken.
 *
 * Load a state, then ask for its bound, or for bounds of each action without looking at what it leads to.
 *
 * @source entropy bounds of K. R. Pattipati, M. G. Alexandridis, IEEE SMC 20(4) (1990), carried over to noisy tests,
 *   wrong repairs, groups and stop (own proof; held to exact values in `search.test.ts`)
 */
export class PriceBound {
  readonly #problem: Problem;
  readonly #layout: KeyLayout;
  // The loaded state, causes by position among the live ones.
  #count = 0;
  #live: Int32Array = new Int32Array();
  #w: Float64Array;
  #h: Float64Array;
  #ln: Float64Array;
  #entropy = 0;
  #hindsight = 0;
  #open: Uint8Array = new Uint8Array();
  // Its available tests; divergences by [test position * causes + cause position].
  tests = 0;
  readonly testIds: Int32Array;
  readonly #share: Float64Array;
  readonly #predicted: Float64Array;
  readonly #capacity: Float64Array;
  readonly #information: Float64Array;
  readonly #fromCapacity: Uint8Array;
  readonly #slack: Float64Array;
  readonly #causeSlack: Float64Array;
  readonly #part: Float64Array;
  // Untried remedies that may mend something.
  remedies = 0;
  readonly remedyIds: Int32Array;
  readonly remedyBound: Float64Array;
  readonly #remedyCosts: RemedyCosts;
  /** Σ w_i times the cost of each known cause by untried remedies. */
  #known = 0;
  /** Bounds of the available tests and of the live causes' repairs, filled by `actions`. */
  readonly testBound: Float64Array;
  readonly repairBound: Float64Array;
  /** The price of the last `best`. */
  price = 1;

  constructor(problem: Problem, layout: KeyLayout) {
    const { causes, tests } = problem;
    this.#problem = problem;
    this.#layout = layout;
    this.#w = new Float64Array(causes);
    this.#h = new Float64Array(causes);
    this.#ln = new Float64Array(causes);
    this.testIds = new Int32Array(tests);
    this.#share = new Float64Array(tests);
    this.#predicted = new Float64Array(tests * causes);
    this.#capacity = new Float64Array(tests * causes);
    this.#information = new Float64Array(tests);
    this.#fromCapacity = new Uint8Array(tests);
    this.#slack = new Float64Array(tests);
    this.#causeSlack = new Float64Array(causes);
    this.#part = new Float64Array(causes);
    this.remedyIds = new Int32Array(problem.remedies.length);
    this.remedyBound = new Float64Array(problem.remedies.length);
    this.#remedyCosts = new RemedyCosts(problem, layout);
    this.testBound = new Float64Array(tests);
    this.repairBound = new Float64Array(causes);
  }

  /** @param weights by cause, summing to 1 over the live ones; `open` flags by group. */
  load(live: LiveSet, key: Int32Array, weights: Float64Array, open: Uint8Array): void {
    const { causes: n, repairCost, repairGroup, groupCost, stop } = this.#problem;
    this.#open = open;
    this.#live = live.causes;
    this.#count = live.causes.length;
    this.#entropy = 0;
    this.#hindsight = 0;
    for (let c = 0; c < this.#count; c++) {
      const i = live.causes[c];
      const w = weights[i];
      const group = repairGroup[i];
      const own = repairCost[i] + (group >= 0 && open[group] === 0 ? groupCost[group] : 0);
      const cure = Math.min(own, this.#remedyCosts.cure(i, open));
      this.#w[c] = w;
      this.#ln[c] = Math.log(w);
      this.#h[c] = Math.min(stop, cure);
      this.#entropy -= w * this.#ln[c];
      this.#hindsight += w * this.#h[c];
    }
    this.tests = 0;
    this.remedies = 0;
    for (let j = 0; j < this.#problem.tests; j++) {
      if (live.useful[j] === 0 || codeOf(this.#layout, key, j) !== 0) continue;
      if (this.#problem.success[j] > 0) {
        this.remedyIds[this.remedies++] = j;
        continue;
      }
      this.testIds[this.tests] = j;
      this.#loadTest(this.tests++, j, live.divergence, n);
    }
    this.#shareGroups();
    this.#known = this.#problem.remedies.length > 0 ? this.#remedyCosts.known(live, key, weights, open) : 0;
  }

  #loadTest(k: number, j: number, capacity: Float64Array, n: number): void {
    const { outcomeStart, chance, negEntropy } = this.#problem;
    const live = this.#live;
    const count = this.#count;
    const w = this.#w;
    const predicted = this.#predicted;
    const at = k * n;
    for (let c = 0; c < count; c++) {
      predicted[at + c] = negEntropy[j * n + live[c]];
      this.#capacity[at + c] = capacity[j * n + live[c]];
    }
    for (let o = outcomeStart[j]; o < outcomeStart[j + 1]; o++) {
      let law = 0;
      for (let c = 0; c < count; c++) law += w[c] * chance[o * n + live[c]];
      if (law <= 0) continue;
      const ln = Math.log(law);
      for (let c = 0; c < count; c++) predicted[at + c] -= chance[o * n + live[c]] * ln;
    }
    let information = 0;
    for (let c = 0; c < count; c++) information += w[c] * predicted[at + c];
    this.#information[k] = Math.max(0, information);
  }

  /** Each available test of a closed group carries an equal share of its cost. */
  #shareGroups(): void {
    const { testGroup, groupCost } = this.#problem;
    for (let k = 0; k < this.tests; k++) {
      const group = testGroup[this.testIds[k]];
      this.#share[k] = 0;
      if (group < 0 || this.#open[group] === 1) continue;
      let of = 0;
      for (let other = 0; other < this.tests; other++) if (testGroup[this.testIds[other]] === group) of++;
      this.#share[k] = groupCost[group] / of;
    }
  }

  /** The best bound found on the loaded state, searching from a price near `hint`; leaves that price in `price`. */
  best(hint: number): number {
    let price = hint;
    let value = this.#waste(price);
    for (const step of [STEP, 1 / STEP]) {
      const before = price;
      for (let steps = 0; steps < MOST_STEPS; steps++) {
        const next = this.#waste(price * step);
        if (!(next > value)) break;
        value = next;
        price *= step;
      }
      if (price !== before) break;
    }
    for (const inner of [Math.sqrt(STEP), 1 / Math.sqrt(STEP)]) {
      const between = this.#waste(price * inner);
      if (!(between > value)) continue;
      value = between;
      price *= inner;
      break;
    }
    this.price = price;
    return Math.max(this.#known, this.#hindsight + Math.max(0, value));
  }

  /** Φ at a price, and as a by-product each test's law, its slack, and each cause's part. */
  #waste(price: number): number {
    let sum = price * this.#entropy + price * this.#guessing(price);
    for (let k = 0; k < this.tests; k++) sum -= this.#slackOf(k, price);
    return sum;
  }

  /** Σ w_i ln(κ ν_i); leaves ln(κ ν_i) in `part`. */
  #guessing(price: number): number {
    const { repairCost, stop } = this.#problem;
    let total = 0;
    let stopping = 0;
    const shares =
      this.#problem.remedies.length > 0 ? this.#remedyCosts.guesses(this.#live, this.#w, price) : undefined;
    for (let c = 0; c < this.#count; c++) {
      const own = -Math.expm1(-repairCost[this.#live[c]] / price);
      const guess = shares === undefined ? own : Math.min(own, shares[this.#live[c]]);
      if (stop !== Number.POSITIVE_INFINITY) stopping += guess * Math.exp((this.#h[c] - stop) / price);
      this.#part[c] = Math.log(guess);
      total += this.#w[c] * this.#part[c];
    }
    if (stopping <= 1) return total;
    const kappa = -Math.log(stopping);
    for (let c = 0; c < this.#count; c++) this.#part[c] += kappa;
    return total + kappa;
  }

  #slackOf(k: number, price: number): number {
    const n = this.#problem.causes;
    const j = this.testIds[k];
    const cost = this.#problem.testCost[j];
    const share = this.#share[k];
    const group = this.#problem.testGroup[j];
    let predicted = 0;
    let capacity = 0;
    for (let c = 0; c < this.#count; c++) {
      const at = k * n + c;
      const t = share === 0 || this.#uses(c, group) ? cost : cost + share;
      const overPredicted = price * this.#predicted[at] - t;
      const overCapacity = price * this.#capacity[at] - t;
      if (overPredicted > 0) predicted += this.#w[c] * overPredicted;
      if (overCapacity > 0) capacity += this.#w[c] * overCapacity;
    }
    this.#fromCapacity[k] = capacity < predicted ? 1 : 0;
    this.#slack[k] = Math.min(predicted, capacity);
    return this.#slack[k];
  }

  /**
   * Bounds of every action of the loaded state, in `testBound` (by position in `testIds`) and `repairBound` (by position
   * among the live causes), each with its own cost and access: what is left after it is bounded at the same price and laws.
   */
  actions(price: number): void {
    const { causes: n, testCost, testGroup, groupCost, repairCost, repairGroup, stop } = this.#problem;
    const waste = this.#waste(price);
    this.#causeSlack.fill(0);
    for (let k = 0; k < this.tests; k++) this.#addCauseSlack(k, price, true, this.#causeSlack);
    for (let r = 0; r < this.remedies; r++) this.remedyBound[r] = this.#remedyBound(this.remedyIds[r], price);
    for (let c = 0; c < this.#count; c++)
      this.#part[c] = this.#w[c] * (price * (this.#part[c] - this.#ln[c]) - this.#causeSlack[c]);

    for (let k = 0; k < this.tests; k++) {
      const j = this.testIds[k];
      if (this.#share[k] > 0) continue;
      const left = waste + this.#slack[k] - price * this.#information[k];
      this.testBound[k] = testCost[j] + this.#hindsight + Math.max(0, left);
    }
    for (let c = 0; c < this.#count; c++) {
      const i = this.#live[c];
      const group = repairGroup[i];
      if (group >= 0 && this.#open[group] === 0) continue;
      this.repairBound[c] =
        repairCost[i] + this.#withoutCause(c, waste, this.#hindsight, this.#part[c], this.#h[c], price);
    }

    const less = new Float64Array(this.#count);
    for (let group = 0; group < groupCost.length; group++) {
      if (groupCost[group] === 0 || this.#open[group] === 1) continue;
      less.fill(0);
      for (let k = 0; k < this.tests; k++) {
        if (testGroup[this.testIds[k]] !== group) continue;
        this.#addCauseSlack(k, price, false, less);
        this.#addCauseSlack(k, price, true, less, -1);
      }
      let openWaste = waste;
      let openHindsight = 0;
      for (let c = 0; c < this.#count; c++) {
        openWaste -= this.#w[c] * less[c];
        openHindsight += this.#w[c] * this.#openedHindsight(c, group, stop);
      }
      for (let k = 0; k < this.tests; k++) {
        const j = this.testIds[k];
        if (testGroup[j] !== group) continue;
        const own = this.#openSlack(k, price, n);
        const left = openWaste + own - price * this.#information[k];
        this.testBound[k] = testCost[j] + groupCost[group] + openHindsight + Math.max(0, left);
      }
      for (let c = 0; c < this.#count; c++) {
        const i = this.#live[c];
        if (repairGroup[i] !== group) continue;
        const part = this.#part[c] - this.#w[c] * less[c];
        const h = this.#openedHindsight(c, group, stop);
        const left = this.#withoutCause(c, openWaste, openHindsight, part, h, price);
        this.repairBound[c] = repairCost[i] + groupCost[group] + left;
      }
    }
  }

  /** Bound of a remedy: its cost, and the bound at the same price and laws of what is left where it fails. */
  #remedyBound(j: number, price: number): number {
    const { causes: n, testCost, testGroup, groupCost, extra, chance, outcomeStart, stop } = this.#problem;
    const group = testGroup[j];
    const opens = group >= 0 && this.#open[group] === 0;
    let cost = testCost[j] + (opens ? groupCost[group] : 0);
    let left = 0;
    let hindsight = 0;
    let waste = 0;
    for (let c = 0; c < this.#count; c++) {
      const fails = chance[(outcomeStart[j] + 1) * n + this.#live[c]];
      cost += this.#w[c] * extra[j * n + this.#live[c]];
      if (fails === 0) continue;
      const w = this.#w[c] * fails;
      left += w;
      hindsight += w * (opens ? this.#openedHindsight(c, group, stop) : this.#h[c]);
      const slack = this.#causeSlack[c] - (opens ? this.#sharedSlack(c, group, price) : 0);
      waste += w * (price * (this.#part[c] - Math.log(w)) - slack);
    }
    if (left > 0) waste += price * left * Math.log(left);
    return cost + hindsight + (Number.isNaN(waste) ? 0 : Math.max(0, waste));
  }

  /** By how much a cause's slack rises, below zero, once a group is open and its tests carry no share of it. */
  #sharedSlack(c: number, group: number, price: number): number {
    if (this.#uses(c, group)) return 0;
    const n = this.#problem.causes;
    let less = 0;
    for (let k = 0; k < this.tests; k++) {
      const j = this.testIds[k];
      if (this.#problem.testGroup[j] !== group) continue;
      const divergence = this.#fromCapacity[k] === 1 ? this.#capacity : this.#predicted;
      const over = price * divergence[k * n + c] - this.#problem.testCost[j];
      less += Math.max(0, over - this.#share[k]) - Math.max(0, over);
    }
    return less;
  }

  /** Something that mends the cause needs the group open. */
  #uses(c: number, group: number): boolean {
    return this.#problem.uses[this.#live[c] * this.#problem.groups + group] === 1;
  }

  /** Cost in hindsight once one more group is open. */
  #openedHindsight(c: number, group: number, stop: number): number {
    if (!this.#uses(c, group)) return this.#h[c];
    const i = this.#live[c];
    const { repairCost, repairGroup, remediesOf } = this.#problem;
    const own = repairGroup[i] === group ? repairCost[i] : Number.POSITIVE_INFINITY;
    const cure = remediesOf[i].length === 0 ? own : Math.min(own, this.#remedyCosts.cure(i, this.#open, group));
    return Math.min(stop, this.#h[c], cure);
  }

  /** Bound on what is left when the repair of one cause has failed, times the chance of that. */
  #withoutCause(c: number, waste: number, hindsight: number, part: number, h: number, price: number): number {
    const rest = Math.max(0, 1 - this.#w[c]);
    const scale = rest > 0 ? price * rest * Math.log(rest) : 0;
    const left = waste - part + scale;
    // Not a number where a repair is free: there the waste bounds nothing.
    return Math.max(0, hindsight - this.#w[c] * h) + (Number.isNaN(left) ? 0 : Math.max(0, left));
  }

  /** Adds one test's slack under each cause, with or without its share of a closed group. */
  #addCauseSlack(k: number, price: number, shared: boolean, to: Float64Array, sign = 1): void {
    const n = this.#problem.causes;
    const j = this.testIds[k];
    const divergence = this.#fromCapacity[k] === 1 ? this.#capacity : this.#predicted;
    const group = this.#problem.testGroup[j];
    const share = shared ? this.#share[k] : 0;
    for (let c = 0; c < this.#count; c++) {
      const own = share === 0 || this.#uses(c, group);
      const over = price * divergence[k * n + c] - this.#problem.testCost[j] - (own ? 0 : share);
      if (over > 0) to[c] += sign * over;
    }
  }

  /** Σ w_i max(0, λ D − t) of a test whose group has been opened. */
  #openSlack(k: number, price: number, n: number): number {
    const divergence = this.#fromCapacity[k] === 1 ? this.#capacity : this.#predicted;
    const cost = this.#problem.testCost[this.testIds[k]];
    let sum = 0;
    for (let c = 0; c < this.#count; c++) {
      const over = price * divergence[k * n + c] - cost;
      if (over > 0) sum += this.#w[c] * over;
    }
    return sum;
  }
}
