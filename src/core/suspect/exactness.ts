import type { Atom } from "../predict/index.ts";
import type { Foresight } from "./foresight.ts";
import type { Entry } from "./prior.ts";

/** Rarer faults of rarer machines are foreseen as on the likeliest machine, until they matter. */
const ATOM_MATTERS = 3e-4;
/** A pair as likely as this is run as a pair. */
const PAIR_MATTERS = 3e-4;
/** What has come to odds like these is foreseen itself, and the odds are worked out again. */
const SHARPEN_ABOVE = 1e-3;
/** Pairs of one case that are run through their programme at most. */
const PAIRS_AT_MOST = 400;

/**
 * Which hypotheses are foreseen on their own machine, by their own run. All faults of the likeliest candidate are; a
 * rare fault of a rarer one borrows what the same fault shows there until its odds grow.
 */
export class Exactness {
  readonly reference: number;
  /** Rises whenever something becomes exact, so that what was worked out before can be renewed. */
  version = 0;
  readonly #atoms: readonly Uint8Array[];
  /** Ids, since a case at other odds has entries of its own. */
  readonly #pairs = new Set<string>();
  readonly #twins: readonly (readonly (Atom | undefined)[])[];

  constructor(foresights: readonly Foresight[], weights: readonly number[], entries: readonly Entry[]) {
    this.reference = weights.reduce((best, weight, c) => (weight > weights[best] ? c : best), 0);
    this.#atoms = foresights.map(({ atoms }) => new Uint8Array(atoms.length));
    this.#atoms[this.reference].fill(1);
    const byName = new Map(foresights[this.reference].atoms.map((atom) => [nameOf(atom), atom]));
    this.#twins = foresights.map(({ atoms }) => atoms.map((atom) => byName.get(nameOf(atom))));
    for (const entry of entries) {
      const { logPrior, atoms, candidate } = entry;
      if (atoms.length === 1 && logPrior > Math.log(ATOM_MATTERS)) this.#atoms[candidate][atoms[0].index] = 1;
      if (atoms.length > 1 && logPrior > Math.log(PAIR_MATTERS)) this.#addPair(entry);
    }
  }

  /** The same fault on the likeliest candidate, where this one borrows from there. */
  standIn(candidate: number, atom: Atom): Atom | undefined {
    return this.#atoms[candidate][atom.index] === 1 ? undefined : this.#twins[candidate][atom.index];
  }

  isRunAsPair(entry: Entry): boolean {
    return this.#pairs.has(entry.id);
  }

  /** Makes exact what has become likely; true when anything was not so yet. */
  sharpen(entries: readonly Entry[], logPosterior: Float64Array): boolean {
    const before = this.version;
    for (let h = 0; h < entries.length; h++) {
      if (logPosterior[h] < LOG_SHARPEN) continue;
      const entry = entries[h];
      const exact = this.#atoms[entry.candidate];
      for (const { index } of entry.atoms) {
        if (exact[index] === 1) continue;
        exact[index] = 1;
        this.version += 1;
      }
      if (entry.atoms.length > 1 && !this.#pairs.has(entry.id) && this.#addPair(entry)) this.version += 1;
    }
    return this.version > before;
  }

  #addPair(entry: Entry): boolean {
    if (this.#pairs.size >= PAIRS_AT_MOST) return false;
    this.#pairs.add(entry.id);
    return true;
  }
}

const LOG_SHARPEN = Math.log(SHARPEN_ABOVE);

function nameOf({ mode, severity }: Atom): string {
  return `${mode.id}#${severity}`;
}
