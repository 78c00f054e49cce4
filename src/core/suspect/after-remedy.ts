import { logSumExp } from "../chance/index.ts";
import type { Belief } from "./case.ts";
import type { ForeseenCase } from "./make-case.ts";
import type { Entry } from "./prior.ts";

/** What was done, and how surely it cures. */
export interface Remedied {
  /** Ids of the modes it is for. */
  readonly modes: ReadonlySet<string>;
  /** Chance that it cures such a mode, 0..1. */
  readonly cured: number;
}

/**
 * Chance that, beside a fault just mended, there is another that the readings so far could not show, so that the same
 * path is measured again after each repair.
 *
 * @source 9 of 67 told repairs had more than one fault (a convenience sample); those already held as pairs are not in it
 */
const ANOTHER_FAULT = 0.05;

/**
 * The case after a remedy: what was seen before speaks of the old part, so the odds so far are carried over the remedy and
 * become the prior of a new case, to which only later observations are given.
 *
 * A mode it cures is gone with chance `cured`; of a pair the other fault stays; and with a small chance something else
 * is wrong that nothing has shown yet.
 */
export function afterRemedy(before: ForeseenCase, belief: Belief, { modes, cured }: Remedied): ForeseenCase {
  const { hypotheses } = before;
  const landing = new Landing(hypotheses);
  const mass = new Float64Array(hypotheses.length);
  for (const [h, entry] of hypotheses.entries()) {
    const p = Math.exp(belief.logPosterior[h]);
    if (p === 0) continue;
    const left = entry.atoms.filter((atom) => !modes.has(atom.mode.id));
    if (left.length === entry.atoms.length) {
      mass[h] += p;
      continue;
    }
    mass[h] += p * (1 - cured);
    const to = landing.of(entry, left.length === 0 ? undefined : left[0].index);
    mass[to] += p * cured * (1 - ANOTHER_FAULT);
    landing.spread(mass, entry.candidate, p * cured * ANOTHER_FAULT);
  }
  const logs = mass.map(Math.log);
  const total = logSumExp(logs);
  return before.atOdds(logs.map((log) => log - total));
}

/** Where the odds of a mended hypothesis go. */
class Landing {
  readonly #nothingWrong = new Map<number, number>();
  readonly #single = new Map<string, number>();
  readonly #hypotheses: readonly Entry[];

  constructor(hypotheses: readonly Entry[]) {
    this.#hypotheses = hypotheses;
    for (const [h, { kind, candidate, atoms, failsOn }] of hypotheses.entries()) {
      if (kind === "nothing wrong") this.#nothingWrong.set(candidate, h);
      if (kind === "single" && failsOn === 1) this.#single.set(`${candidate} ${atoms[0].index}`, h);
    }
  }

  of({ candidate }: Entry, atom: number | undefined): number {
    const left = atom === undefined ? undefined : this.#single.get(`${candidate} ${atom}`);
    const healthy = this.#nothingWrong.get(candidate);
    if (healthy === undefined) throw new RangeError(`suspect: candidate ${candidate} has no "nothing wrong"`);
    return left ?? healthy;
  }

  /** Spreads odds over all single faults of a candidate as they stood at first. */
  spread(mass: Float64Array, candidate: number, p: number): void {
    let total = 0;
    for (const h of this.#single.values()) {
      const entry = this.#hypotheses[h];
      if (entry.candidate === candidate && Number.isFinite(entry.logPrior)) total += Math.exp(entry.logPrior);
    }
    for (const h of this.#single.values()) {
      const entry = this.#hypotheses[h];
      if (entry.candidate === candidate && total > 0) mass[h] += (p * Math.exp(entry.logPrior)) / total;
    }
  }
}
