import type { KeyLayout } from "./key.ts";
import type { Problem } from "./problem.ts";
import { RepairSequence } from "./sequence.ts";
import type { Action, Moves, Situation } from "./situation.ts";

/**
 * One-step lookahead over the repair sequence, played to the end: each action is valued as if only repairs followed it,
 * the cheapest is done, and the same is asked again at each outcome.
 *
 * @source D. Heckerman, J. S. Breese, K. Rommelse, CACM 38(3) (1995); rollout: D. P. Bertsekas, J. N. Tsitsiklis (1997);
 *   both from memory
 */
export class Rollout {
  readonly #problem: Problem;
  readonly #moves: Moves;
  readonly #sequence: RepairSequence;
  readonly #weights: Float64Array;
  readonly #causes: Int32Array;
  /** The least that each cause costs in any case. */
  readonly #owed: Float64Array;
  readonly #levels: { readonly situation: Situation; readonly open: Uint8Array; readonly after: Uint8Array }[] = [];
  /** States played so far. */
  states = 0;

  constructor(problem: Problem, moves: Moves, layout: KeyLayout) {
    this.#problem = problem;
    this.#moves = moves;
    this.#sequence = new RepairSequence(problem, layout);
    this.#weights = new Float64Array(problem.causes);
    this.#causes = new Int32Array(problem.causes);
    this.#owed = owedBy(problem);
  }

  /** The expected cost of the policy from a situation; paths of less chance than `cut` end in the repair sequence. */
  cost(from: Situation, cut: number): number {
    const start = this.#level(0).situation;
    copy(from, start);
    return this.#play(0, 1, cut);
  }

  /** What the policy does in a situation reached with chance `reach`: an action, or -1 for the repair sequence. */
  choose(situation: Situation, reach: number, cut: number): Action {
    if (reach < cut || situation.live.causes.length === 1) return -1;
    const open = this.#moves.openGroups(situation.key, new Uint8Array(this.#problem.groups));
    return this.bestStep(situation, open, new Uint8Array(this.#problem.groups));
  }

  #play(depth: number, reach: number, cut: number): number {
    const { tests, outcomeStart, ends } = this.#problem;
    const { situation, open, after } = this.#level(depth);
    const { live, weights } = situation;
    this.#moves.openGroups(situation.key, open);
    const isCut = reach < cut || live.causes.length === 1;
    const action = isCut ? -1 : this.bestStep(situation, open, after);
    if (!isCut) this.states++;
    if (action < 0) return this.#sequence.plan(live.causes, live.causes.length, weights, open, situation.key).cost;
    const next = this.#level(depth + 1).situation;
    let cost = this.#moves.costOf(action, situation, open);
    if (action >= tests) {
      const chance = this.#moves.afterFailure(situation, action - tests, next);
      return chance > 0 ? cost + chance * this.#play(depth + 1, reach * chance, cut) : cost;
    }
    for (let o = outcomeStart[action]; o < outcomeStart[action + 1]; o++) {
      if (ends[o] === 1) continue;
      const chance = this.#moves.afterOutcome(situation, action, o, next);
      if (chance > 0) cost += chance * this.#play(depth + 1, reach * chance, cut);
    }
    return cost;
  }

  /**
   * The action that is cheapest when only repairs follow it, or -1 where the repair sequence alone is as cheap.
   *
   * @param open  flags of the open groups
   * @param after work area of as many flags
   */
  bestStep(here: Situation, open: Uint8Array, after: Uint8Array): Action {
    const { live, key, weights } = here;
    const { tests, causes: n, outcomeStart, chance, ends } = this.#problem;
    const moves = this.#moves;
    const scaled = this.#weights;
    const alone = this.#sequence.plan(live.causes, live.causes.length, weights, open, key).cost;
    let least = alone - 1e-12 * alone;
    let best = -1;
    let owedByAll = 0;
    for (const i of live.causes) owedByAll += weights[i] * this.#owed[i];
    const opened = (action: Action): void => {
      after.set(open);
      const group = moves.groupOf(action);
      if (group >= 0) after[group] = 1;
    };
    for (let j = 0; j < tests; j++) {
      if (!moves.isAvailable(here, j)) continue;
      let cost = moves.costOf(j, here, open);
      // What the outcomes still to come owe: a test is given up as soon as it cannot be the cheapest.
      let owed = owedByAll;
      opened(j);
      for (let o = outcomeStart[j]; o < outcomeStart[j + 1] && cost + owed < least; o++) {
        if (ends[o] === 1) continue;
        let count = 0;
        for (const i of live.causes) {
          const p = chance[o * n + i];
          if (p === 0) continue;
          this.#causes[count++] = i;
          scaled[i] = weights[i] * p;
          owed -= scaled[i] * this.#owed[i];
        }
        owed = Math.max(0, owed);
        if (count > 0)
          cost += this.#sequence.plan(this.#causes, count, scaled, after, key, j, least - cost - owed).cost;
      }
      if (cost + owed < least) {
        least = cost;
        best = j;
      }
    }
    for (const cause of live.causes) {
      let cost = moves.costOf(tests + cause, here, open);
      if (cost >= least) continue;
      opened(tests + cause);
      let count = 0;
      for (const i of live.causes) if (i !== cause) this.#causes[count++] = i;
      if (count > 0) cost += this.#sequence.plan(this.#causes, count, weights, after, key, -1, least - cost).cost;
      if (cost < least) {
        least = cost;
        best = tests + cause;
      }
    }
    return best;
  }

  #level(depth: number): { readonly situation: Situation; readonly open: Uint8Array; readonly after: Uint8Array } {
    const flags = (): Uint8Array => new Uint8Array(this.#problem.groups);
    while (this.#levels.length <= depth)
      this.#levels.push({ situation: this.#moves.blank(), open: flags(), after: flags() });
    return this.#levels[depth];
  }
}

/** Of each cause its own repair or stopping, whichever is less; nothing is promised where remedies may fail. */
function owedBy({ causes, remedies, repairCost, stop }: Problem): Float64Array {
  const owed = new Float64Array(causes);
  // A hair less, so that no sum of these rounds up beyond what is paid.
  if (remedies.length === 0) for (let i = 0; i < causes; i++) owed[i] = Math.min(stop, repairCost[i]) * (1 - 1e-9);
  return owed;
}

function copy(from: Situation, to: Situation): void {
  to.live = from.live;
  to.weights.set(from.weights);
  to.key.set(from.key);
}
