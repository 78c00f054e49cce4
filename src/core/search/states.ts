import type { KeyLayout } from "./key.ts";
import type { LiveSet, LiveSets } from "./live-set.ts";
import type { Problem } from "./problem.ts";
import type { Situation } from "./situation.ts";

/** A list of numbers that grows; one typed array, no object an entry. */
class Column<A extends Float64Array | Int32Array> {
  data: A;
  readonly #make: (length: number) => A;
  readonly #width: number;

  constructor(make: (length: number) => A, width = 1) {
    this.#make = make;
    this.#width = width;
    this.data = make(256 * width);
  }

  /** Makes room for `count` entries. */
  reach(count: number): void {
    if (count * this.#width <= this.data.length) return;
    const grown = this.#make(Math.max(count * this.#width, 2 * this.data.length));
    grown.set(this.data);
    this.data = grown;
  }
}

const doubles = (width = 1): Column<Float64Array> => new Column((length) => new Float64Array(length), width);
const integers = (width = 1): Column<Int32Array> => new Column((length) => new Int32Array(length), width);

/** Policy of a state: the repair sequence. Otherwise the position of an action in the list of actions. */
export const BY_SEQUENCE = -1;
/** Policy of a state: one-step lookahead to its end; how far is kept with the state. */
export const BY_ROLLOUT = -2;
/** First action of a state that has not been expanded, first child of an action that has not been followed. */
export const NOT_YET = -1;

/**
 * The graph of states met by a search: each situation once, found by its key, with bounds `lo` and `hi` on its expected
 * cost (weights scaled to 1), the actions worth keeping, and where their outcomes lead.
 */
export class States {
  readonly #problem: Problem;
  readonly #words: number;
  readonly #sets: LiveSets;
  readonly #weights: Column<Float64Array>;
  readonly #keys: Column<Int32Array>;
  readonly #live = integers();
  readonly #lo = doubles();
  readonly #hi = doubles();
  readonly #price = doubles();
  readonly #policy = integers();
  readonly #cut = doubles();
  readonly #firstAction = integers();
  readonly #actions = integers();
  #slots = new Int32Array(1024);
  count = 0;

  readonly #action = integers();
  readonly #actionCost = doubles();
  readonly #actionLo = doubles();
  readonly #firstChild = integers();
  readonly #children = integers();
  actionCount = 0;

  readonly #child = integers();
  readonly #chance = doubles();
  childCount = 0;

  constructor(problem: Problem, layout: KeyLayout, sets: LiveSets) {
    this.#problem = problem;
    this.#words = layout.words;
    this.#sets = sets;
    this.#weights = doubles(problem.causes);
    this.#keys = integers(layout.words);
  }

  get lo(): Float64Array {
    return this.#lo.data;
  }
  get hi(): Float64Array {
    return this.#hi.data;
  }
  get price(): Float64Array {
    return this.#price.data;
  }
  get policy(): Int32Array {
    return this.#policy.data;
  }
  /** Of a state whose policy is by rollout: the chance below which a path is finished by the repair sequence. */
  get cut(): Float64Array {
    return this.#cut.data;
  }
  get firstAction(): Int32Array {
    return this.#firstAction.data;
  }
  get actions(): Int32Array {
    return this.#actions.data;
  }
  get action(): Int32Array {
    return this.#action.data;
  }
  get actionCost(): Float64Array {
    return this.#actionCost.data;
  }
  get actionLo(): Float64Array {
    return this.#actionLo.data;
  }
  get firstChild(): Int32Array {
    return this.#firstChild.data;
  }
  get children(): Int32Array {
    return this.#children.data;
  }
  get child(): Int32Array {
    return this.#child.data;
  }
  get chance(): Float64Array {
    return this.#chance.data;
  }

  live(state: number): LiveSet {
    return this.#sets.list[this.#live.data[state]];
  }

  /** Writes the situation of a state to `to`. */
  recall(state: number, to: Situation): Situation {
    const { causes } = this.#problem;
    to.live = this.live(state);
    to.weights.set(this.#weights.data.subarray(state * causes, (state + 1) * causes));
    to.key.set(this.#keys.data.subarray(state * this.#words, (state + 1) * this.#words));
    return to;
  }

  /** The state of a situation, or the complement of the number a new one would get. */
  find({ key }: Situation): number {
    const found = this.#slots[this.#slotOf(key)];
    return found === 0 ? ~this.count : found - 1;
  }

  /** Adds a situation that `find` does not know; its bounds are the caller's to set. */
  add({ live, weights, key }: Situation): number {
    if (2 * (this.count + 1) > this.#slots.length) this.#rehash();
    const state = this.count++;
    for (const column of [this.#live, this.#lo, this.#hi, this.#price, this.#policy, this.#cut])
      column.reach(this.count);
    for (const column of [this.#firstAction, this.#actions, this.#weights, this.#keys]) column.reach(this.count);
    this.#slots[this.#slotOf(key)] = state + 1;
    this.#weights.data.set(weights, state * weights.length);
    this.#keys.data.set(key, state * this.#words);
    this.#live.data[state] = live.index;
    this.#firstAction.data[state] = NOT_YET;
    this.#policy.data[state] = BY_SEQUENCE;
    return state;
  }

  /** Adds an action at the end of the list; a state's actions stand one behind the other. */
  addAction(action: number, cost: number, lo: number): number {
    const at = this.actionCount++;
    for (const column of [this.#action, this.#actionCost, this.#actionLo, this.#firstChild, this.#children])
      column.reach(this.actionCount);
    this.#action.data[at] = action;
    this.#actionCost.data[at] = cost;
    this.#actionLo.data[at] = lo;
    this.#firstChild.data[at] = NOT_YET;
    this.#children.data[at] = 0;
    return at;
  }

  addChild(state: number, chance: number): void {
    const at = this.childCount++;
    this.#child.reach(this.childCount);
    this.#chance.reach(this.childCount);
    this.#child.data[at] = state;
    this.#chance.data[at] = chance;
  }

  #slotOf(key: Int32Array): number {
    const last = this.#slots.length - 1;
    let slot = hashOf(key, 0, this.#words) & last;
    for (;;) {
      const found = this.#slots[slot];
      if (found === 0 || this.#sameKey(found - 1, key)) return slot;
      slot = (slot + 1) & last;
    }
  }

  #sameKey(state: number, key: Int32Array): boolean {
    const keys = this.#keys.data;
    const at = state * this.#words;
    for (let word = 0; word < this.#words; word++) if (keys[at + word] !== key[word]) return false;
    return true;
  }

  #rehash(): void {
    const old = this.#slots;
    this.#slots = new Int32Array(2 * old.length);
    const last = this.#slots.length - 1;
    for (const found of old) {
      if (found === 0) continue;
      let slot = hashOf(this.#keys.data, (found - 1) * this.#words, this.#words) & last;
      while (this.#slots[slot] !== 0) slot = (slot + 1) & last;
      this.#slots[slot] = found;
    }
  }
}

function hashOf(words: Int32Array, at: number, count: number): number {
  let hash = 0x811c9dc5;
  for (let word = at; word < at + count; word++) {
    hash = Math.imul(hash ^ words[word], 0x85ebca6b);
    hash ^= hash >>> 15;
  }
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}
