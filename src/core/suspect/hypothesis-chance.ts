import type { Atom, Fault } from "../predict/index.ts";
import type { Entry } from "./prior.ts";

/**
 * How one observation is judged on one candidate machine: a shape for what a fault shows (answers, a display), what
 * chance that shape gives to what was seen, and what stands in for a machine this sheet does not know.
 */
export interface Judge<Shown> {
  /** What the machine shows under a fault. */
  foresee(fault: Fault): Shown;
  /** Is it the same for every purpose of this observation? */
  same(a: Shown, b: Shown): boolean;
  /** Chances of each outcome under what is shown; they sum to 1 where the outcomes are all there are. */
  chances(shown: Shown): Float64Array;
  /** Chances for a fault that is there on a share of operations only; absent: the mean of present and healthy. */
  comesAndGoes?(failsOn: number, present: Shown, healthy: Shown): Float64Array;
  /** Chances of the outcomes for something unknown. */
  readonly anything: Float64Array;
  /** Is a pair of faults quick to foresee? */
  readonly quickPairs: boolean;
}

/** What is known of one atom: what it shows, its chances, and whether that is no different from a good machine. */
interface Known<Shown> {
  readonly shown: Shown;
  readonly chances: Float64Array;
  readonly quiet: boolean;
}

/** Pairs that need a programme run are run only for this many of them, the likeliest; others take the mean of their two faults. */
const PAIRS_RUN_AT_MOST = 60;

/**
 * Chances of an observation's outcomes under hypotheses of one candidate.
 *
 * Of a pair, a fault that does not change what is shown leaves it to the other; two that show the same show that; any
 * other pair is foreseen itself.
 */
export class CandidateChances<Shown> {
  readonly #judge: Judge<Shown>;
  readonly #healthy: Shown;
  readonly #healthyChances: Float64Array;
  readonly #atoms: (Known<Shown> | undefined)[] = [];
  #pairsRun = 0;

  constructor(judge: Judge<Shown>) {
    this.#judge = judge;
    this.#healthy = judge.foresee([]);
    this.#healthyChances = judge.chances(this.#healthy);
  }

  /** Chance of each outcome under a hypothesis; the array is shared, not to be written to. */
  of(entry: Entry): Float64Array {
    switch (entry.kind) {
      case "nothing wrong":
        return this.#healthyChances;
      case "not on this sheet":
        return mix(0.5, this.#judge.anything, this.#healthyChances);
      default: {
        if (entry.failsOn === 1) return this.#present(entry.atoms);
        const { shown, chances } = this.#atom(entry.atoms[0]);
        const { comesAndGoes } = this.#judge;
        return comesAndGoes === undefined
          ? mix(entry.failsOn, chances, this.#healthyChances)
          : comesAndGoes(entry.failsOn, shown, this.#healthy);
      }
    }
  }

  #present(atoms: readonly Atom[]): Float64Array {
    const first = this.#atom(atoms[0]);
    if (atoms.length === 1) return first.chances;
    const second = this.#atom(atoms[1]);
    if (first.quiet) return second.chances;
    if (second.quiet || this.#judge.same(first.shown, second.shown)) return first.chances;
    if (!this.#judge.quickPairs && this.#pairsRun >= PAIRS_RUN_AT_MOST) return mix(0.5, first.chances, second.chances);
    this.#pairsRun += 1;
    return this.#judge.chances(this.#judge.foresee(atoms));
  }

  #atom(atom: Atom): Known<Shown> {
    let known = this.#atoms[atom.index];
    if (known === undefined) {
      const shown = this.#judge.foresee([atom]);
      const quiet = this.#judge.same(shown, this.#healthy);
      known = { shown, quiet, chances: quiet ? this.#healthyChances : this.#judge.chances(shown) };
      this.#atoms[atom.index] = known;
    }
    return known;
  }
}

function mix(share: number, a: Float64Array, b: Float64Array): Float64Array {
  return a.map((x, i) => share * x + (1 - share) * b[i]);
}
