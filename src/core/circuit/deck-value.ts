import type { DeckKind } from "./deck.ts";

/** Powers of ten of the SPICE suffixes; `m` is milli, `meg` mega. */
const suffixes: Readonly<Record<string, number>> = {
  t: 12,
  g: 9,
  meg: 6,
  k: 3,
  "": 0,
  m: -3,
  u: -6,
  n: -9,
  p: -12,
  f: -15,
};

/** A unit may follow the suffix, as letters that mean nothing. */
const number = /^([+-]?(?:\d+\.?\d*|\.\d+))(?:e([+-]?\d{1,4}))?(meg|[fpnumkgt]?)([a-zΩ]*)$/iu;

/** A SPICE number with its suffix applied: the double nearest to what is written; undefined where it is none. */
export function deckNumber(text: string): number | undefined {
  const match = number.exec(text);
  if (match === null || /^mil/i.test(`${match[3]}${match[4]}`)) return undefined;
  const value = Number(`${match[1]}e${Number(match[2] ?? 0) + suffixes[match[3].toLowerCase()]}`);
  return Number.isFinite(value) ? value : undefined;
}

interface Bounds {
  readonly says: string;
  readonly least: number;
  readonly most: number;
  readonly mayBeNegative: boolean;
}

/** Values the elimination is safe with: no product of admittances along a chain may underflow to a false open. */
const bounds: Readonly<Record<DeckKind, Bounds>> = {
  R: { says: "ohms", least: 1e-12, most: 1e21, mayBeNegative: false },
  C: { says: "farads", least: 1e-21, most: 1e6, mayBeNegative: false },
  L: { says: "henries", least: 1e-15, most: 1e9, mayBeNegative: false },
  V: { says: "volts", least: 1e-30, most: 1e15, mayBeNegative: true },
  I: { says: "amperes", least: 1e-30, most: 1e15, mayBeNegative: true },
};

/** What a value of this kind should have been, or undefined where it is good. Zero is: a short, a capacitor left out, a dead source. */
export function valueWanted(kind: DeckKind, value: number): string | undefined {
  const { says, least, most, mayBeNegative } = bounds[kind];
  const size = Math.abs(value);
  const good = value === 0 || (size >= least && size <= most && (mayBeNegative || value > 0));
  return good ? undefined : `${says}: 0, or ${least} to ${most}${mayBeNegative ? " of either sign" : ""}`;
}
