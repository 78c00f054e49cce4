import { capacityDivergences } from "./capacity.ts";
import type { Problem } from "./problem.ts";

/** Columns that differ by no more than this, relatively, say the same. */
const SAME = 1e-13;
/** A capacity law serves the subsets of its causes down to this share of them. */
const LAW_REACH = 0.7;

/** What depends only on which causes are still live. */
export interface LiveSet {
  readonly index: number;
  readonly causes: Int32Array;
  /** By test: 1 where some outcome weighs the live causes differently. */
  readonly useful: Uint8Array;
  /** By outcome (in the list of all): 1 + the first outcome of its test that says the same of the live causes. */
  readonly code: Int32Array;
  /** Divergences from a capacity law of these causes or more: `[test * causes + cause]`. */
  readonly divergence: Float64Array;
  /** How many causes that law is of. */
  readonly lawOf: number;
}

/** The live sets met so far. */
export class LiveSets {
  readonly #problem: Problem;
  readonly #byMask = new Map<number | string, LiveSet>();
  readonly list: LiveSet[] = [];

  constructor(problem: Problem) {
    this.#problem = problem;
  }

  /** All causes live. */
  whole(): LiveSet {
    return this.#find(Int32Array.from({ length: this.#problem.causes }, (_, i) => i));
  }

  /** `set` without one cause. */
  without(set: LiveSet, cause: number): LiveSet {
    return this.#find(
      set.causes.filter((i) => i !== cause),
      set,
    );
  }

  /** Those of `set` under which outcome `o` (in the list of all outcomes) can be. */
  under(set: LiveSet, o: number): LiveSet {
    const { chance, causes: n } = this.#problem;
    for (const i of set.causes) {
      if (chance[o * n + i] > 0) continue;
      return this.#find(
        set.causes.filter((k) => chance[o * n + k] > 0),
        set,
      );
    }
    return set;
  }

  #find(causes: Int32Array, within?: LiveSet): LiveSet {
    const mask = maskOf(causes, this.#problem.causes);
    const known = this.#byMask.get(mask);
    if (known !== undefined) return known;
    const made = this.#make(causes, within);
    this.#byMask.set(mask, made);
    this.list.push(made);
    return made;
  }

  #make(causes: Int32Array, within: LiveSet | undefined): LiveSet {
    const { tests, outcomeStart, ends } = this.#problem;
    const useful = new Uint8Array(tests);
    const code = new Int32Array(outcomeStart[tests]);
    for (let j = 0; j < tests; j++) {
      if (within !== undefined && within.useful[j] === 0) continue;
      for (let o = outcomeStart[j]; o < outcomeStart[j + 1]; o++) {
        // A remedy is of use while it may mend something, even where that tells nothing.
        if (ends[o] === 1 ? this.#isPossible(causes, o) : !this.#constant(causes, o)) useful[j] = 1;
        let same = outcomeStart[j];
        while (same < o && !this.#proportional(causes, o, same)) same++;
        code[o] = 1 + same - outcomeStart[j];
      }
    }
    const inherits = within !== undefined && causes.length >= LAW_REACH * within.lawOf;
    return {
      index: this.list.length,
      causes,
      useful,
      code,
      divergence: inherits ? within.divergence : capacityDivergences(this.#problem, causes, useful),
      lawOf: inherits ? within.lawOf : causes.length,
    };
  }

  #isPossible(causes: Int32Array, o: number): boolean {
    const { chance, causes: n } = this.#problem;
    return causes.some((i) => chance[o * n + i] > 0);
  }

  #constant(causes: Int32Array, o: number): boolean {
    const { chance, causes: n } = this.#problem;
    let least = 1;
    let most = 0;
    for (const i of causes) {
      const p = chance[o * n + i];
      if (p < least) least = p;
      if (p > most) most = p;
    }
    return most - least <= SAME * most;
  }

  #proportional(causes: Int32Array, a: number, b: number): boolean {
    const { chance, causes: n } = this.#problem;
    const first = causes[0];
    const a0 = chance[a * n + first];
    const b0 = chance[b * n + first];
    for (const i of causes) {
      const left = chance[a * n + i] * b0;
      const right = chance[b * n + i] * a0;
      if (Math.abs(left - right) > SAME * Math.max(left, right)) return false;
      if ((chance[a * n + i] === 0) !== (chance[b * n + i] === 0)) return false;
    }
    return true;
  }
}

/** The set as a number where 32 bits hold it, else as text. */
function maskOf(causes: Int32Array, of: number): number | string {
  if (of > 32) return causes.join();
  let mask = 0;
  for (const i of causes) mask |= 1 << i;
  return mask;
}
