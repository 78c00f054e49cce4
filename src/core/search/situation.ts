import { codeOf, isOpen, type KeyLayout, setCode, setOpen } from "./key.ts";
import type { LiveSet, LiveSets } from "./live-set.ts";
import type { Problem } from "./problem.ts";

/** Weights never fall to zero while their cause is live: a thousandfold product of small chances must not lose a cause. */
const LEAST_WEIGHT = 1e-250;

/** What is believed and done at one moment of the work. */
export interface Situation {
  live: LiveSet;
  /** By cause; the live ones sum to 1. */
  readonly weights: Float64Array;
  readonly key: Int32Array;
}

/** An action: the test of that index, or the repair of cause `action - tests`. */
export type Action = number;

/** How one action leads from one situation to the next. */
export class Moves {
  readonly #problem: Problem;
  readonly #layout: KeyLayout;
  readonly #sets: LiveSets;

  constructor(problem: Problem, layout: KeyLayout, sets: LiveSets) {
    this.#problem = problem;
    this.#layout = layout;
    this.#sets = sets;
  }

  blank(): Situation {
    return {
      live: this.#sets.whole(),
      weights: new Float64Array(this.#problem.causes),
      key: new Int32Array(this.#layout.words),
    };
  }

  /** Before anything is done. */
  start(): Situation {
    const situation = this.blank();
    situation.weights.set(this.#problem.prior);
    this.#settle(situation);
    this.#writeLive(situation);
    return situation;
  }

  groupOf(action: Action): number {
    const { tests, testGroup, repairGroup } = this.#problem;
    return action < tests ? testGroup[action] : repairGroup[action - tests];
  }

  /** Cost of an action, with that of its group where that is still closed, and what it takes beside that. */
  costOf(action: Action, { live, weights }: Situation, open: Uint8Array): number {
    const { tests, causes: n, testCost, repairCost, groupCost, success, extra } = this.#problem;
    const group = this.groupOf(action);
    let cost = action < tests ? testCost[action] : repairCost[action - tests];
    if (group >= 0 && open[group] === 0) cost += groupCost[group];
    if (action >= tests || success[action] === 0) return cost;
    for (const i of live.causes) cost += weights[i] * extra[action * n + i];
    return cost;
  }

  /** Flags of the open groups, written to `open`. */
  openGroups(key: Int32Array, open: Uint8Array): Uint8Array {
    for (let group = 0; group < open.length; group++) open[group] = isOpen(this.#layout, key, group) ? 1 : 0;
    return open;
  }

  isAvailable(situation: Situation, test: number): boolean {
    return situation.live.useful[test] === 1 && codeOf(this.#layout, situation.key, test) === 0;
  }

  /**
   * The situation after test `j` showed outcome `o` (in the list of all outcomes), written to `to`.
   *
   * @returns the chance of that outcome; 0, and nothing of use in `to`, where no live cause allows it
   */
  afterOutcome(from: Situation, j: number, o: number, to: Situation): number {
    const { chance, causes: n, outcomeStart } = this.#problem;
    to.live = this.#sets.under(from.live, o);
    if (to.live.causes.length === 0) return 0;
    for (const i of to.live.causes) to.weights[i] = from.weights[i] * chance[o * n + i];
    const total = this.#settle(to);
    this.#carry(from, to, this.#problem.testGroup[j], j, 1 + o - outcomeStart[j]);
    return total;
  }

  /** The situation after the repair of a live cause has failed, written to `to`; its chance, or 0 where it was the last. */
  afterFailure(from: Situation, cause: number, to: Situation): number {
    if (from.live.causes.length === 1) return 0;
    to.live = this.#sets.without(from.live, cause);
    for (const i of to.live.causes) to.weights[i] = from.weights[i];
    const total = this.#settle(to);
    this.#carry(from, to, this.#problem.repairGroup[cause], -1, 0);
    return total;
  }

  /** Scales the live weights to 1; gives their sum before. */
  #settle({ live, weights }: Situation): number {
    let total = 0;
    for (const i of live.causes) total += weights[i];
    total = Math.max(total, LEAST_WEIGHT);
    for (const i of live.causes) weights[i] = Math.max(weights[i] / total, LEAST_WEIGHT);
    return total;
  }

  #writeLive({ live, key }: Situation): void {
    for (const i of live.causes) key[i >>> 5] |= 1 << (i & 31);
  }

  /** Writes the key of `to`: what was done and is open in `from`, with one test and one group more, less what no longer matters. */
  #carry(from: Situation, to: Situation, group: number, test: number, code: number): void {
    const { tests, testGroup, repairGroup, outcomeStart } = this.#problem;
    const layout = this.#layout;
    to.key.fill(0);
    this.#writeLive(to);
    for (let j = 0; j < tests; j++) {
      if (to.live.useful[j] === 0) continue;
      const done = j === test ? code : codeOf(layout, from.key, j);
      if (done > 0) setCode(layout, to.key, j, to.live.code[outcomeStart[j] + done - 1]);
      else this.#keepOpen(from, to, testGroup[j], group);
    }
    for (const i of to.live.causes) this.#keepOpen(from, to, repairGroup[i], group);
  }

  #keepOpen(from: Situation, to: Situation, matters: number, opened: number): void {
    if (matters >= 0 && (matters === opened || isOpen(this.#layout, from.key, matters)))
      setOpen(this.#layout, to.key, matters);
  }
}
