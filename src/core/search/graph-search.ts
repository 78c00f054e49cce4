import { type KeyLayout, keyLayout } from "./key.ts";
import { LiveSets } from "./live-set.ts";
import { PriceBound } from "./price-bound.ts";
import type { Problem } from "./problem.ts";
import { Rollout } from "./rollout.ts";
import { RepairSequence } from "./sequence.ts";
import { type Action, Moves, type Situation } from "./situation.ts";
import { BY_ROLLOUT, BY_SEQUENCE, NOT_YET, States } from "./states.ts";

/** Bounds this close, relatively, are equal: the answer is proved. */
export const PROVED = 1e-9;
/** A state whose bounds are this close has nothing left to find. */
const CLOSED = 1e-14;
/** A trial goes on down while it may settle this share of the root's gap. */
const WORTH_GOING_ON = 0.05;
/** Rollouts are tried while the root's gap is above this share of the cost ... */
const ROLLOUT_GAP = 0.1;
/** ... and their work is below this share of the expansions. */
const ROLLOUT_SHARE = 0.3;
/** A rollout follows every path of at least this chance. */
const COARSEST_CUT = 0.03;

/**
 * Bounded AND-OR search by trials on the shared graph of situations: each trial follows the action of least lower bound to
 * the outcome that leaves most undecided, expands the states it meets, and carries the bounds back. Deterministic: its
 * work is counted in expansions, never in time.
 *
 * @source AO*: A. Martelli, U. Montanari (1973); two-sided bounds by trials: T. Smith, R. Simmons (2004), H. B. McMahan
 *   et al. (2005); all from memory
 */
export class GraphSearch {
  readonly problem: Problem;
  readonly states: States;
  readonly moves: Moves;
  readonly sequence: RepairSequence;
  readonly root: number;
  readonly layout: KeyLayout;
  readonly #bound: PriceBound;
  readonly #rollout: Rollout;
  readonly #open: Uint8Array;
  readonly #openAfter: Uint8Array;
  readonly #here: Situation;
  readonly #next: Situation;
  readonly #path: number[] = [];
  /** The action taken at each state of the path. */
  readonly #taken: number[] = [];
  #rollouts = 0;
  /** The state whose bounds are being tightened. */
  #from = 0;
  /** Times a bound was tightened. */
  #moved = 0;
  /** States expanded. */
  expansions = 0;

  constructor(problem: Problem) {
    this.problem = problem;
    this.layout = keyLayout(problem);
    const sets = new LiveSets(problem);
    this.states = new States(problem, this.layout, sets);
    this.moves = new Moves(problem, this.layout, sets);
    this.sequence = new RepairSequence(problem, this.layout);
    this.#bound = new PriceBound(problem, this.layout);
    this.#rollout = new Rollout(problem, this.moves, this.layout);
    this.#open = new Uint8Array(problem.groups);
    this.#openAfter = new Uint8Array(problem.groups);
    this.#here = this.moves.blank();
    this.#next = this.moves.blank();
    const costs = [...problem.repairCost, ...problem.remedies.map((j) => problem.testCost[j])].filter(Number.isFinite);
    const mean = costs.reduce((sum, cost) => sum + cost, 0) / Math.max(1, costs.length);
    this.root = this.#stateOf(this.moves.start(), mean > 0 ? mean : 1);
  }

  /** Work done: expansions, ten states of a rollout counting as one. */
  get work(): number {
    return this.expansions + this.#rollout.states / 10;
  }

  get isProved(): boolean {
    return this.#isClosed(this.root);
  }

  #isClosed(state: number): boolean {
    const { lo, hi } = this.states;
    return hi[state] - lo[state] <= PROVED * hi[state];
  }

  /** Tightens the bounds of a state until they meet, `work` is done in all, or `mostStates` are held. */
  run(work: number, mostStates: number, from = this.root): void {
    this.#from = from;
    while (!this.#isClosed(from) && this.work < work && this.states.count < mostStates) {
      const before = this.expansions;
      const moved = this.#moved;
      const { lo, hi } = this.states;
      const gap = hi[from] - lo[from];
      this.#trial();
      const isWide = gap > ROLLOUT_GAP * hi[from];
      if (isWide && this.#rollout.states / 10 < ROLLOUT_SHARE * this.expansions) this.#rolloutTrial(work - this.work);
      // Nothing met was new, and no bound anywhere moved: nothing ever will.
      if (this.expansions === before && this.#moved === moved) return;
    }
  }

  #trial(): void {
    const { states } = this;
    const path = this.#path;
    path.length = 0;
    const least = WORTH_GOING_ON * (states.hi[this.#from] - states.lo[this.#from]);
    let state = this.#from;
    let reach = 1;
    for (;;) {
      if (states.hi[state] - states.lo[state] <= CLOSED * states.hi[state]) break;
      path.push(state);
      const isNew = states.firstAction[state] === NOT_YET;
      if (isNew) this.#expand(state);
      const action = this.#leastAction(state);
      this.#taken[path.length - 1] = action;
      if (action < 0 || (isNew && reach * (states.hi[state] - states.lo[state]) < least)) break;
      let next = -1;
      let widest = 0;
      let chance = 0;
      const first = states.firstChild[action];
      for (let k = first; k < first + states.children[action]; k++) {
        const child = states.child[k];
        const open = states.chance[k] * (states.hi[child] - states.lo[child]);
        if (!(open > widest)) continue;
        widest = open;
        next = child;
        chance = states.chance[k];
      }
      if (next < 0) break;
      state = next;
      reach *= chance;
    }
    this.#carryBack();
  }

  /** Plays one-step lookahead to the end, with about `work` left, from a state not yet expanded, down the best upper bounds. */
  #rolloutTrial(work: number): void {
    const { states } = this;
    const path = this.#path;
    path.length = 0;
    const byUpper = this.#rollouts++ % 2 === 1;
    let state = this.#from;
    let reach = 1;
    while (states.firstAction[state] !== NOT_YET) {
      path.push(state);
      const action = byUpper && states.policy[state] >= 0 ? states.policy[state] : this.#leastAction(state);
      this.#taken[path.length - 1] = action;
      if (action < 0) return;
      let next = -1;
      let widest = 0;
      let chance = 0;
      const first = states.firstChild[action];
      for (let k = first; k < first + states.children[action]; k++) {
        const child = states.child[k];
        // A state that has been rolled out already has had its turn.
        if (states.policy[child] === BY_ROLLOUT && states.firstAction[child] === NOT_YET) continue;
        const open = states.chance[k] * (states.hi[child] - states.lo[child]);
        if (!(open > widest)) continue;
        widest = open;
        next = child;
        chance = states.chance[k];
      }
      if (next < 0) return;
      state = next;
      reach *= chance;
    }
    // At each depth at most 1 / cut states are reached that often, so that a rollout stays within the work that is left.
    const finest = this.problem.tests / (10 * Math.max(1, work));
    const cut = Math.min(COARSEST_CUT, Math.max(1e-4, 2e-4 / reach, finest));
    const cost = this.#rollout.cost(states.recall(state, this.#here), cut);
    if (cost < states.hi[state]) {
      states.hi[state] = Math.max(cost, states.lo[state]);
      states.policy[state] = BY_ROLLOUT;
      states.cut[state] = cut;
    }
    this.#carryBack();
  }

  #carryBack(): void {
    for (let at = this.#path.length - 1; at >= 0; at--) this.#backUp(this.#path[at], this.#taken[at]);
  }

  /** The kept action of least lower bound, its children made; -1 where none is kept. */
  #leastAction(state: number): number {
    const { states } = this;
    const first = states.firstAction[state];
    const last = first + states.actions[state];
    for (;;) {
      let least = -1;
      for (let at = first; at < last; at++) if (least < 0 || states.actionLo[at] < states.actionLo[least]) least = at;
      if (least < 0) return least;
      const before = states.actionLo[least];
      if (states.firstChild[least] === NOT_YET) this.follow(state, least);
      this.#tighten(state, least);
      if (!(states.actionLo[least] > before)) return least;
    }
  }

  /** Raises an action's lower bound, and lowers its state's upper bound, to what its children say. */
  #tighten(state: number, at: number): void {
    const { states } = this;
    let lo = states.actionCost[at];
    let hi = lo;
    const first = states.firstChild[at];
    for (let k = first; k < first + states.children[at]; k++) {
      lo += states.chance[k] * states.lo[states.child[k]];
      hi += states.chance[k] * states.hi[states.child[k]];
    }
    if (lo > states.actionLo[at]) {
      states.actionLo[at] = lo;
      this.#moved++;
    }
    if (hi < states.hi[state]) {
      this.#moved++;
      states.hi[state] = hi;
      states.policy[state] = at;
    }
  }

  #backUp(state: number, taken: number): void {
    const { states } = this;
    const first = states.firstAction[state];
    const last = first + states.actions[state];
    const { actionLo } = states;
    if (taken >= 0) this.#tighten(state, taken);
    let least = this.problem.stop;
    for (let at = first; at < last; at++) if (actionLo[at] < least) least = actionLo[at];
    // Actions left out could not beat the upper bound of their day.
    const lo = Math.min(least, states.hi[state]);
    if (lo > states.lo[state]) {
      states.lo[state] = lo;
      this.#moved++;
    } else if (states.lo[state] > states.hi[state]) states.lo[state] = states.hi[state];
  }

  #expand(state: number): void {
    const { states, moves, problem } = this;
    this.expansions++;
    const here = states.recall(state, this.#here);
    const open = moves.openGroups(here.key, this.#open);
    const bound = this.#bound;
    bound.load(here.live, here.key, here.weights, open);
    bound.best(states.price[state]);
    states.price[state] = bound.price;
    bound.actions(bound.price);
    const cheapest = this.#rollout.bestStep(here, open, this.#openAfter);
    states.firstAction[state] = states.actionCount;
    const free = this.#freeAction(here, open);
    let best = -1;
    const keep = (action: Action, lo: number): void => {
      if (free >= 0 && action !== free) return;
      if (lo >= states.hi[state] && action !== free) return;
      const at = states.addAction(action, moves.costOf(action, here, open), lo);
      if (action === cheapest) best = at;
    };
    for (let k = 0; k < bound.tests; k++) keep(bound.testIds[k], bound.testBound[k]);
    for (let k = 0; k < bound.remedies; k++) keep(bound.remedyIds[k], bound.remedyBound[k]);
    here.live.causes.forEach((cause, c) => {
      keep(problem.tests + cause, bound.repairBound[c]);
    });
    states.actions[state] = states.actionCount - states.firstAction[state];
    if (best >= 0) this.follow(state, best);
    this.#backUp(state, best);
  }

  /** An action that costs nothing is never wrong: it can only tell more. */
  #freeAction(here: Situation, open: Uint8Array): Action {
    const { problem, moves } = this;
    for (let j = 0; j < problem.tests; j++)
      if (moves.isAvailable(here, j) && moves.costOf(j, here, open) === 0) return j;
    for (const cause of here.live.causes)
      if (moves.costOf(problem.tests + cause, here, open) === 0) return problem.tests + cause;
    return -1;
  }

  /** Makes the children of an action. */
  follow(state: number, at: number): void {
    const { states } = this;
    const made = this.childrenOf(state, states.action[at]);
    states.firstChild[at] = states.childCount;
    states.children[at] = made.length / 2;
    for (let k = 0; k < made.length; k += 2) states.addChild(made[k], made[k + 1]);
    this.#tighten(state, at);
  }

  /** What an action of a state costs by itself. */
  costOf(state: number, action: Action): number {
    const here = this.states.recall(state, this.#here);
    return this.moves.costOf(action, here, this.moves.openGroups(here.key, this.#open));
  }

  /** States that an action may lead to, each followed by its chance; outcomes that end the work are left out. */
  childrenOf(state: number, action: Action): number[] {
    const { states, moves, problem } = this;
    const here = states.recall(state, this.#here);
    const hint = states.price[state];
    const made: number[] = [];
    const note = (chance: number): void => {
      if (chance > 0) made.push(this.#stateOf(this.#next, hint), chance);
    };
    if (action < problem.tests) {
      for (let o = problem.outcomeStart[action]; o < problem.outcomeStart[action + 1]; o++)
        if (problem.ends[o] === 0) note(moves.afterOutcome(here, action, o, this.#next));
    } else note(moves.afterFailure(here, action - problem.tests, this.#next));
    return made;
  }

  /** The state of a situation; a new one gets its bounds. */
  #stateOf(situation: Situation, hint: number): number {
    const { states } = this;
    const found = states.find(situation);
    if (found >= 0) return found;
    const state = states.add(situation);
    const { live, key, weights } = situation;
    const open = this.moves.openGroups(key, this.#openAfter);
    const hi = this.sequence.plan(live.causes, live.causes.length, weights, open, key).cost;
    let lo = hi;
    states.price[state] = hint;
    // With one cause left its own repair is all there is to do; of remedies that may fail there can be a choice.
    if (live.causes.length > 1 || this.problem.remedies.length > 0) {
      this.#bound.load(live, key, weights, open);
      lo = Math.min(hi, this.#bound.best(hint));
      states.price[state] = this.#bound.price;
    }
    states.lo[state] = lo;
    states.hi[state] = hi;
    states.policy[state] = BY_SEQUENCE;
    return state;
  }
}
