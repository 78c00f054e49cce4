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

/** Names a fault among those of one machine. */
export function faultKey(fault: Fault): string {
  return fault
    .map((atom) => atom.index)
    .sort((a, b) => a - b)
    .join("+");
}

export function effectsOf(fault: Fault): readonly Effect[] {
  return fault.flatMap((atom) => atom.mode.severities[atom.severity].effects);
}
