// Values that a mutated file is given in place of its own.
import type { Random } from "../../src/core/chance/index.ts";

/** Numbers that are none, or hardly any. */
export const NUMBERS = [
  "NaN",
  "1e400",
  "-1e400",
  "-5",
  "0",
  "1e-320",
  "99999999999999999999",
  "0x10",
  "1_000",
  "--3",
  "3..5..7",
  "7..3",
  "Infinity",
  ".",
  "1/0",
];
export const UNITS = ["V", "Ω", "W", "min", "s", "µF", "%", "A", "kg", "°C", "±10%", "@C", "@Z", "k3", "/h"];
/** The first is long; the rest mean something to YAML, to a browser or to the language. */
export const TEXTS = [
  "x".repeat(200_000),
  "((".repeat(500),
  "a and ".repeat(300),
  "~",
  "null",
  "true",
  "*",
  "&a 1",
  "*a",
  "!!js x",
  "\u0000",
  "\u202e",
  "💡",
  "<p>",
  "<p><p>",
  "__proto__",
  "constructor",
  "toString",
  "",
  "[]",
  "{}",
  "else",
  "is",
  "not",
  "- -",
  "? :",
  "'",
  '"',
  "|",
  ">",
  "%YAML 9",
  "---",
  "OL",
];

export function oneOf<T>(list: readonly T[], random: Random): T | undefined {
  return list[Math.floor(random.uniform() * list.length)];
}
