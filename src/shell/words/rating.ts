import { formatAmount, type Rated, type Source } from "../../core/quantity/index.ts";

/** "2 kW (1.8 to 2.1 kW)", "230 V": a rating as a plate or a catalogue would print it. */
export function ratingInWords({ nominal, lo, hi, spread, unit }: Rated): string {
  const told = (value: number): string => (unit === undefined ? plainNumber(value) : formatAmount(value, unit));
  if (spread === "exact") return told(nominal);
  if (spread === "range") return `${told(lo)} to ${told(hi)}`;
  return `${told(nominal)} (${told(lo)} to ${told(hi)})`;
}

/** A number without a unit, its size told by the usual letter where it has many noughts: `470 n`, `1 M`. */
function plainNumber(value: number): string {
  const size = Math.abs(value);
  if (size > 0 && size < 1e-3) return formatAmount(value, "F").replace(/F$/, "");
  return size >= 1e4 ? formatAmount(value, "Ohm").replace(/Ω$/, "") : formatAmount(value, "1");
}

const marks: Readonly<Record<Source["mark"], string>> = {
  C: "common practice",
  M: "from memory",
  D: "worked out",
  P: "type plate",
  S: "the shop's own",
  I: "invented for the demonstration",
  R: "read in",
};

/** Where a number stands: "from memory", "the shop's own, n = 6", "read in IEC 60751". */
export function sourceInWords({ mark, note, n }: Source): string {
  const more = [...(note === undefined ? [] : [note]), ...(n === undefined ? [] : [`n = ${n}`])].join(", ");
  return more === "" ? marks[mark] : mark === "R" ? `${marks[mark]} ${more}` : `${marks[mark]}, ${more}`;
}
