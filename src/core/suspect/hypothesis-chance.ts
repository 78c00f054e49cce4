import type { Atom, Fault } from "../predict/index.ts";
import type { Exactness } from "./exactness.ts";
import type { Foresight } from "./foresight.ts";
import type { Entry } from "./prior.ts";

/**
 * How one observation is judged on one candidate machine: a shape for what a fault shows (answers, a display), what
 * chance that shape gives to each outcome, and what stands in for a machine this sheet does not know.
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
  /** What it costs to foresee one more fault: nothing, a solved circuit, or a programme run. */
  readonly costs: "nothing" | "a solve" | "a run";
}

/** What is known of one atom: what it shows, its chances, and whether that is no different from a good machine. */
interface Known<Shown> {
  readonly shown: Shown;
  readonly chances: Float64Array;
  readonly quiet: boolean;
  readonly borrowed: boolean;
}

/** All single faults of a candidate at once, by their index. */
export interface Singles {
  readonly quiet: Uint8Array;
  readonly chance: Float64Array;
}

/** What was seen is held possible at least so far: beyond all doubt impossible, and yet 1 / it can still be added up. */
export const LEAST_CHANCE = 1e-280;

/** One observation judged on all candidates. */
export class Judged<Shown> {
  readonly #foresights: readonly Foresight[];
  readonly #exactness: Exactness;
  readonly #make: (foresight: Foresight) => Judge<Shown>;
  readonly #candidates: (CandidateChances<Shown> | undefined)[] = [];

  constructor(foresights: readonly Foresight[], exactness: Exactness, make: (foresight: Foresight) => Judge<Shown>) {
    this.#foresights = foresights;
    this.#exactness = exactness;
    this.#make = make;
  }

  /** Chance of each outcome under a hypothesis; the array is shared, not to be written to. */
  of(entry: Entry): Float64Array {
    return this.#on(entry.candidate).of(entry);
  }

  /** Chance of the first outcome under each single fault of a candidate, and which of them change nothing. */
  singles(candidate: number): Singles {
    return this.#on(candidate).singles(this.#foresights[candidate].atoms);
  }

  /** Chances for something unknown. */
  get anything(): Float64Array {
    return this.#on(this.#exactness.reference).judge.anything;
  }

  #on(candidate: number): CandidateChances<Shown> {
    let known = this.#candidates[candidate];
    if (known === undefined) {
      const judge = this.#make(this.#foresights[candidate]);
      const { reference } = this.#exactness;
      const lender = candidate === reference || judge.costs === "nothing" ? undefined : this.#on(reference);
      known = new CandidateChances(judge, candidate, this.#exactness, lender);
      this.#candidates[candidate] = known;
    }
    return known;
  }
}

/**
 * Chances of an observation's outcomes under hypotheses of one candidate.
 *
 * Of a pair, a fault that does not change what is shown leaves it to the other; two that show the same show that; any
 * other pair is foreseen itself where it is likely or costs no run, else it takes the mean of its two.
 */
class CandidateChances<Shown> {
  readonly judge: Judge<Shown>;
  readonly #candidate: number;
  readonly #exactness: Exactness;
  readonly #lender: CandidateChances<Shown> | undefined;
  readonly #healthy: Shown;
  readonly #healthyChances: Float64Array;
  readonly #atoms: (Known<Shown> | undefined)[] = [];

  constructor(
    judge: Judge<Shown>,
    candidate: number,
    exactness: Exactness,
    lender: CandidateChances<Shown> | undefined,
  ) {
    this.judge = judge;
    this.#candidate = candidate;
    this.#exactness = exactness;
    this.#lender = lender?.judge.costs === "nothing" ? undefined : lender;
    this.#healthy = judge.foresee([]);
    this.#healthyChances = judge.chances(this.#healthy);
  }

  of(entry: Entry): Float64Array {
    switch (entry.kind) {
      case "nothing wrong":
        return this.#healthyChances;
      case "not on this sheet":
        return mix(0.5, this.judge.anything, this.#healthyChances);
      default: {
        if (entry.failsOn === 1) return this.#present(entry);
        const { shown, chances } = this.#atom(entry.atoms[0]);
        const { comesAndGoes } = this.judge;
        return comesAndGoes === undefined
          ? mix(entry.failsOn, chances, this.#healthyChances)
          : comesAndGoes(entry.failsOn, shown, this.#healthy);
      }
    }
  }

  singles(atoms: readonly Atom[]): Singles {
    const known = atoms.map((atom) => this.#atom(atom));
    return {
      quiet: Uint8Array.from(known, ({ quiet }) => Number(quiet)),
      chance: Float64Array.from(known, ({ chances }) => Math.max(chances[0], LEAST_CHANCE)),
    };
  }

  #present(entry: Entry): Float64Array {
    const first = this.#atom(entry.atoms[0]);
    if (entry.atoms.length === 1) return first.chances;
    const second = this.#atom(entry.atoms[1]);
    if (first.quiet) return second.chances;
    if (second.quiet || this.judge.same(first.shown, second.shown)) return first.chances;
    const cheap = this.judge.costs !== "a run" && !first.borrowed && !second.borrowed;
    if (!cheap && !this.#exactness.isRunAsPair(entry)) return mix(0.5, first.chances, second.chances);
    return this.judge.chances(this.judge.foresee(entry.atoms));
  }

  #atom(atom: Atom): Known<Shown> {
    const known = this.#atoms[atom.index];
    if (known !== undefined && !known.borrowed) return known;
    const lender = this.#lender;
    const twin = this.#exactness.standIn(this.#candidate, atom);
    if (known !== undefined && twin !== undefined) return known;
    const made = lender === undefined || twin === undefined ? this.#foreseen(atom) : this.#borrowed(lender.#atom(twin));
    this.#atoms[atom.index] = made;
    return made;
  }

  #foreseen(atom: Atom): Known<Shown> {
    const shown = this.judge.foresee([atom]);
    const quiet = this.judge.same(shown, this.#healthy);
    return { shown, quiet, borrowed: false, chances: quiet ? this.#healthyChances : this.judge.chances(shown) };
  }

  /** What the same fault shows on the likeliest machine; where it changes nothing there, it changes nothing here. */
  #borrowed(lent: Known<Shown>): Known<Shown> {
    const { quiet } = lent;
    const shown = quiet ? this.#healthy : lent.shown;
    return { shown, quiet, borrowed: true, chances: quiet ? this.#healthyChances : this.judge.chances(shown) };
  }
}

function mix(share: number, a: Float64Array, b: Float64Array): Float64Array {
  return a.map((x, i) => share * x + (1 - share) * b[i]);
}
