import type { Effect, Mode } from "../fault/index.ts";

/** One mode at one severity: the smallest thing that can be wrong. */
export interface Atom {
  /** Index into the list it came from; a pair is named by two of these. */
  readonly index: number;
  readonly mode: Mode;
  readonly severity: number;
}

/** Several things wrong at once; none: a good machine. */
export type Fault = readonly Atom[];

/** All severities of all modes, in their order. */
export function atomsOf(modes: readonly Mode[]): readonly Atom[] {
  const atoms: Atom[] = [];
  for (const mode of modes) {
    for (const severity of mode.severities.keys()) atoms.push({ index: atoms.length, mode, severity });
  }
  return atoms;
}

/** What is known of each fault of one machine; a good machine and single faults are found without making a name. */
export class FaultMap<T> {
  #good: T | undefined;
  readonly #single: (T | undefined)[] = [];
  readonly #pairs = new Map<number, T>();

  get(fault: Fault): T | undefined {
    if (fault.length === 0) return this.#good;
    return fault.length === 1 ? this.#single[fault[0].index] : this.#pairs.get(pairKey(fault));
  }

  set(fault: Fault, value: T): void {
    if (fault.length === 0) this.#good = value;
    else if (fault.length === 1) this.#single[fault[0].index] = value;
    else this.#pairs.set(pairKey(fault), value);
  }
}

function pairKey(fault: Fault): number {
  if (fault.length !== 2) throw new RangeError(`predict: ${fault.length} faults at once; two at most`);
  const [{ index: a }, { index: b }] = fault;
  return a < b ? a * 2 ** 20 + b : b * 2 ** 20 + a;
}

export function effectsOf(fault: Fault): readonly Effect[] {
  if (fault.length === 1) return fault[0].mode.severities[fault[0].severity].effects;
  return fault.flatMap((atom) => atom.mode.severities[atom.severity].effects);
}
