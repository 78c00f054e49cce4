/** R, C, L: resistor, capacitor, inductor; V, I: ideal sources. */
export type DeckKind = "R" | "C" | "L" | "V" | "I";

export interface DeckElement {
  /** As written; within a subcircuit `x1.r2`. Names are compared without case. */
  readonly name: string;
  readonly kind: DeckKind;
  /** Nodes: the current of an element is counted from a through it to b. */
  readonly a: string;
  readonly b: string;
  /** Ohms, farads, henries; for a source its DC volts or amperes. */
  readonly value: number;
  /** AC phasor of a source: magnitude (volts or amperes) and phase (degrees). */
  readonly ac?: { readonly magnitude: number; readonly degrees: number };
  /** Line of the card that made it; of the innermost card for a subcircuit. */
  readonly line: number;
}

/** A SPICE deck with its subcircuits flattened. */
export interface Deck {
  readonly title: string;
  readonly elements: readonly DeckElement[];
}

/** Names of decks are compared without case. */
export function deckKey(name: string): string {
  return name.toLowerCase();
}
