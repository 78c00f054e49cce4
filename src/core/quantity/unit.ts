import { units } from "./unit-table.ts";

/**
 * Units we know, by their UCUM code. Values are kept in the unit asked for (ohms, volts, farads, seconds, millimetres ...),
 * never in a prefixed one, save those that the trade itself uses as a base (mm, mbar, L/min, min).
 *
 * @source UCUM (unified code for units of measure): codes Ohm, Cel, L, mbar, %, 1
 */
export type UnitCode =
  | "Ohm"
  | "V"
  | "A"
  | "W"
  | "VA"
  | "F"
  | "H"
  | "Hz"
  | "s"
  | "min"
  | "h"
  | "Cel"
  | "K"
  | "L"
  | "L/min"
  | "mm"
  | "cm"
  | "m"
  | "mbar"
  | "bar"
  | "Pa"
  | "J"
  | "W.h"
  | "N.m"
  | "kg"
  | "g"
  | "/min"
  | "%"
  | "1";

export interface Unit {
  readonly code: UnitCode;
  /** Units of one dimension convert into one another. */
  readonly dimension: string;
  /** Value of one of this unit in the dimension's first unit. */
  readonly factor: number;
  /** As printed. */
  readonly symbol: string;
  /** What a person may write, compared without regard to case unless a prefix could be mistaken for it. */
  readonly written: readonly string[];
  /** What it is called in a sentence. */
  readonly says: string;
  /** SI prefixes that may stand before it, small to large; "" is none. */
  readonly prefixes: readonly string[];
  /** May the amount be below zero? */
  readonly signed: boolean;
}

/** Powers of ten by the SI prefix; both code points of micro, and the capital K that people write for kilo. */
export const prefixExponent: ReadonlyMap<string, number> = new Map([
  ["p", -12],
  ["n", -9],
  ["u", -6],
  ["µ", -6],
  ["μ", -6],
  ["m", -3],
  ["", 0],
  ["k", 3],
  ["K", 3],
  ["M", 6],
  ["G", 9],
  ["T", 12],
]);

const byCode: ReadonlyMap<string, Unit> = new Map(units.map((unit) => [unit.code, unit]));

/** The unit of a code. Throws for a code that is not in the table. */
export function unitOf(code: UnitCode): Unit {
  const unit = byCode.get(code);
  if (unit === undefined) throw new Error(`unknown unit code ${JSON.stringify(code)}`);
  return unit;
}

/** Is the text the code of a unit we know? */
export function isUnitCode(text: string): text is UnitCode {
  return byCode.has(text);
}

/** A written suffix (`kΩ`, `mA`, `k`, `%`) read as power of ten and unit. */
export interface Suffix {
  readonly exponent: number;
  /** Missing when only a prefix was written. */
  readonly unit?: Unit;
}

/**
 * What a written suffix means, or `undefined` when nothing we know is written so. `wanted` decides where one spelling has
 * two meanings: `K` is kilo, or kelvin where kelvin is asked; `m` is milli, or metres where a length is asked.
 */
export function readSuffix(text: string, wanted?: Unit, glued = true): Suffix | undefined {
  if (text === "") return { exponent: 0 };
  if (text === "m" && wanted?.dimension === "length") return { exponent: 0, unit: unitOf("m") };
  if (text === "K" && meansKelvin(wanted, glued)) return { exponent: 0, unit: unitOf("K") };
  const bare = prefixExponent.get(text);
  if (bare !== undefined) return { exponent: bare };
  const unit = named(text) ?? unshifted(text);
  if (unit !== undefined) return { exponent: 0, unit };
  const exponent = prefixExponent.get(text.slice(0, 1));
  if (exponent === undefined) return undefined;
  const rest = text.slice(1).trimStart();
  const prefixed = named(rest) ?? unshifted(rest);
  return prefixed === undefined || prefixed.prefixes.length < 2 ? undefined : { exponent, unit: prefixed };
}

function meansKelvin(wanted: Unit | undefined, glued: boolean): boolean {
  if (wanted === undefined) return !glued;
  return wanted.dimension === "temperature difference" || wanted.dimension === "temperature";
}

/** Longer names are read without regard to case: `Ohms`, `HZ`. */
function named(text: string): Unit | undefined {
  return units.find((unit) =>
    unit.written.some((name) => name === text || (name.length > 1 && name.toLowerCase() === text.toLowerCase())),
  );
}

/** `l`, `w`, `v`, typed without the shift key, are not mistaken for anything else. */
function unshifted(text: string): Unit | undefined {
  return units.find((unit) => ["V", "W", "L", "VA"].includes(unit.code) && unit.symbol.toLowerCase() === text);
}
