import type { Mode } from "../fault/index.ts";
import type { Pieces } from "../pace/index.ts";
import type { Atom } from "../predict/index.ts";
import type { Machine } from "../sheet/index.ts";
import { meansMode } from "../sign/index.ts";
import type { Hypothesis } from "./case.ts";
import type { Foresight } from "./foresight.ts";

/** A hypothesis with the atoms that make it up. */
export interface Entry extends Hypothesis {
  readonly atoms: readonly Atom[];
}

/** One of tens of thousands: keeps its atoms, and names itself when asked. */
class PairEntry implements Entry {
  readonly kind = "pair";
  readonly failsOn = 1;
  readonly candidate: number;
  readonly atoms: readonly Atom[];
  readonly logPrior: number;

  constructor(candidate: number, atoms: readonly Atom[], logPrior: number) {
    this.candidate = candidate;
    this.atoms = atoms;
    this.logPrior = logPrior;
  }

  get id(): string {
    return nameOf(this.kind, this.candidate, this.atoms, this.failsOn);
  }

  get modes(): readonly Mode[] {
    return this.atoms.map((atom) => atom.mode);
  }

  get severities(): readonly number[] {
    return this.atoms.map((atom) => atom.severity);
  }

  withPrior(logPrior: number): PairEntry {
    return new PairEntry(this.candidate, this.atoms, logPrior);
  }
}

/** The same hypothesis with other prior odds. */
export function withPrior(entry: Entry, logPrior: number): Entry {
  return entry instanceof PairEntry ? entry.withPrior(logPrior) : { ...entry, logPrior };
}

export interface PriorOptions {
  readonly ageYears?: number;
  /** Ids of parts, joints or causes that the last repair touched, on a return job. */
  readonly disturbed?: readonly string[];
  /** Most pairs of unrelated faults over all candidates. */
  readonly pairsAtMost?: number;
}

/** Chance that nothing at all is wrong, beside the sheet's own "use" causes (from memory). */
const NOTHING_WRONG = 0.01;
/** Chance of something the sheet does not know (from memory). */
const NOT_ON_THIS_SHEET = 0.03;
/** Chance that two old, unrelated faults meet; with the linked pairs about one job in eight has two (67 told repairs). */
const TWO_UNRELATED = 0.05;
/** How much likelier a thing is at fault when the last repair touched it (from memory). */
const DISTURBED_FACTOR = 8;
/** Of a victim's share, at least this much is its own failure. */
const LEAST_OWN_SHARE = 0.1;
/** A fault that comes and goes fails on one of these shares of operations. */
const FAILS_ON = [0.1, 0.5, 0.9];
const PAIRS_AT_MOST = 30_000;

/**
 * All hypotheses of a case with their prior odds, given that somebody called.
 *
 * Single modes by share, split by severity and by how often they fail; a linked pair by P(victim | cause), taken out of
 * cause and victim alone; unrelated pairs by the product of their shares, the likeliest first; nothing wrong; and
 * something not on this sheet. In pieces, one a candidate.
 */
export function* priorOf(
  candidates: readonly { readonly foresight: Foresight; readonly weight: number }[],
  options: PriorOptions,
): Pieces<readonly Entry[]> {
  const entries: Entry[] = [];
  const pairsEach = Math.ceil((options.pairsAtMost ?? PAIRS_AT_MOST) / candidates.length);
  for (const [candidate, { foresight, weight }] of candidates.entries()) {
    const draft = new Draft(foresight, candidate, options);
    for (const { weight: share, ...entry } of draft.entries()) {
      if (share > 0) entries.push({ ...entry, logPrior: Math.log(share * weight) });
    }
    for (const { a, b, share } of draft.unrelated(pairsEach)) {
      entries.push(new PairEntry(candidate, [a, b], Math.log(share * weight)));
    }
    yield;
  }
  return entries;
}

type Weighed = Omit<Entry, "logPrior"> & { readonly weight: number };

class Draft {
  readonly #machine: Machine;
  readonly #foresight: Foresight;
  readonly #candidate: number;
  /** Share of each mode, by its index. */
  readonly #shares: readonly number[];
  readonly #atomsOf: ReadonlyMap<Mode, readonly Atom[]>;

  constructor(foresight: Foresight, candidate: number, options: PriorOptions) {
    this.#foresight = foresight;
    this.#machine = foresight.machine;
    this.#candidate = candidate;
    this.#shares = foresight.modes.map((mode) => shareOf(mode, foresight.machine, options));
    const atomsOf = new Map<Mode, Atom[]>(foresight.modes.map((mode) => [mode, []]));
    for (const atom of foresight.atoms) atomsOf.get(atom.mode)?.push(atom);
    this.#atomsOf = atomsOf;
  }

  entries(): readonly Weighed[] {
    const { alone, linked } = this.#linked();
    const total = sum(alone) + sum(linked.map((link) => link.share));
    const rest = 1 - NOTHING_WRONG - NOT_ON_THIS_SHEET - TWO_UNRELATED;
    const scale = total > 0 ? rest / total : 0;
    const { modes } = this.#foresight;
    return [
      this.#entry("nothing wrong", [], NOTHING_WRONG),
      this.#entry("not on this sheet", [], NOT_ON_THIS_SHEET),
      ...modes.flatMap((mode, m) => this.#singles(mode, alone[m] * scale)),
      ...linked.flatMap(({ cause, victim, share }) => this.#linkedPairs(modes[cause], modes[victim], share * scale)),
    ];
  }

  #entry(kind: Hypothesis["kind"], atoms: readonly Atom[], weight: number, failsOn = 1): Weighed {
    return {
      id: nameOf(kind, this.#candidate, atoms, failsOn),
      kind,
      candidate: this.#candidate,
      modes: atoms.map((atom) => atom.mode),
      severities: atoms.map((atom) => atom.severity),
      failsOn,
      atoms,
      weight,
    };
  }

  /** Always there at each severity; or coming and going, at its weightiest severity. */
  #singles(mode: Mode, weight: number): readonly Weighed[] {
    const atoms = this.#atomsOf.get(mode) ?? [];
    const weightOf = (atom: Atom): number => mode.severities[atom.severity].weight;
    const steady = atoms.map((atom) => this.#entry("single", [atom], weight * weightOf(atom) * (1 - mode.nowAndThen)));
    if (mode.nowAndThen === 0 || atoms.length === 0) return steady;
    const main = atoms.reduce((best, atom) => (weightOf(atom) >= weightOf(best) ? atom : best));
    const each = (weight * mode.nowAndThen) / FAILS_ON.length;
    return [...steady, ...FAILS_ON.map((share) => this.#entry("single", [main], each, share))];
  }

  #linkedPairs(a: Mode, b: Mode, weight: number): readonly Weighed[] {
    return (this.#atomsOf.get(a) ?? []).flatMap((first) =>
      (this.#atomsOf.get(b) ?? []).map((second) =>
        this.#entry(
          "linked pair",
          [first, second],
          weight * a.severities[first.severity].weight * b.severities[second.severity].weight,
        ),
      ),
    );
  }

  /** Linked pairs with their shares, and what is left to each mode alone. */
  #linked(): { alone: readonly number[]; linked: readonly { cause: number; victim: number; share: number }[] } {
    const { modes } = this.#foresight;
    const known = new Map<string, readonly number[]>();
    const meant = (name: string): readonly number[] => {
      const found = known.get(name) ?? modes.flatMap((mode, m) => (meansMode(name, mode, this.#machine) ? [m] : []));
      known.set(name, found);
      return found;
    };
    const linked = this.#machine.links.flatMap((link) => {
      const causes = meant(link.cause);
      const victims = meant(link.victim);
      const victimShare = sum(victims.map((v) => this.#shares[v]));
      return causes.flatMap((cause) =>
        victims
          .filter((victim) => victim !== cause)
          .map((victim) => ({
            cause,
            victim,
            share: this.#shares[cause] * link.p * (victimShare > 0 ? this.#shares[victim] / victimShare : 0),
          })),
      );
    });
    const asCause = new Float64Array(modes.length);
    const asVictim = new Float64Array(modes.length);
    for (const { cause, victim, share } of linked) {
      asCause[cause] += share;
      asVictim[victim] += share;
    }
    const alone = this.#shares.map((share, m) => {
      const kept = Math.max(share - asVictim[m], share * LEAST_OWN_SHARE);
      return Math.max(kept - asCause[m], 0);
    });
    return { alone, linked };
  }

  /** Pairs of unrelated faults, the likeliest first. */
  unrelated(atMost: number): readonly { readonly a: Atom; readonly b: Atom; readonly share: number }[] {
    const { modes, atoms } = this.#foresight;
    const total = sum(this.#shares);
    if (total === 0) return [];
    const shareOfMode = new Map(modes.map((mode, m) => [mode, this.#shares[m]]));
    const weights = atoms.map(
      (atom) => ((shareOfMode.get(atom.mode) ?? 0) / total) * atom.mode.severities[atom.severity].weight,
    );
    const order = atoms.filter((_, a) => weights[a] > 0).sort((a, b) => weights[b.index] - weights[a.index]);
    const pairs: { a: Atom; b: Atom; weight: number }[] = [];
    for (const [i, a] of order.entries()) {
      for (let j = i + 1; j < order.length; j++) {
        // Every pair before both of these weighs more: far enough down, none can be among the first `atMost`.
        if ((i + 1) * (j - i / 2) > 2 * atMost) break;
        const b = order[j];
        if (!sameThing(a.mode, b.mode)) pairs.push({ a, b, weight: weights[a.index] * weights[b.index] });
      }
    }
    pairs.sort((one, other) => other.weight - one.weight);
    const kept = pairs.slice(0, atMost);
    const scale = TWO_UNRELATED / Math.max(sum(kept.map((pair) => pair.weight)), Number.MIN_VALUE);
    return kept.map(({ a, b, weight }) => ({ a, b, share: weight * scale }));
  }
}

function shareOf(mode: Mode, machine: Machine, options: PriorOptions): number {
  const touched = options.disturbed?.some((name) => meansMode(name, mode, machine)) ?? false;
  return mode.share * ageFactor(mode, machine, options.ageYears) * (touched ? DISTURBED_FACTOR : 1);
}

/** New machines are called for use and installation, old ones for wear (from memory). */
function ageFactor(mode: Mode, machine: Machine, years: number | undefined): number {
  const group = machine.causes[mode.cause]?.group;
  if (years === undefined || group === undefined) return 1;
  if (group === "use") return years < 2 ? 2.5 : years < 8 ? 1 : 0.7;
  return years < 2 ? 0.4 : years < 8 ? 1 : 1.3;
}

function sameThing(a: Mode, b: Mode): boolean {
  return a === b || (a.part >= 0 && a.part === b.part) || (a.cause >= 0 && a.cause === b.cause);
}

function nameOf(kind: Hypothesis["kind"], candidate: number, atoms: readonly Atom[], failsOn: number): string {
  const what = atoms.length === 0 ? kind : atoms.map((atom) => `${atom.mode.id}#${atom.severity}`).join(" & ");
  return `${candidate}: ${what}${failsOn === 1 ? "" : ` on ${failsOn}`}`;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
