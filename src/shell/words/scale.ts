import { wrap } from "./wrap.ts";

/**
 * The reading scale in text: one axis, a band for each fault that is still possible, a mark where the meter stood.
 * Ohms run by decades between the stops "lead or less" and OL; everything else runs straight from zero.
 */
export interface Band {
  /** Where the reading would lie; `open` for OL. */
  readonly reach: Reach;
  /** "24 – 27 Ω", before the bar. */
  readonly value: string;
  /** "about 6 in 10", behind the bar. */
  readonly odds?: string;
  /** Whose band it is, in full, on lines of its own below the bar. */
  readonly says: string;
}

/** Where a reading lies, in its base unit; `open` for OL. */
export type Reach = { readonly lo: number; readonly hi: number } | "open";

export interface Scale {
  readonly axis: "ohms" | "straight";
  /** Top of a straight axis, in the unit of the bands. */
  readonly top: number;
  /** How a stop of a straight axis is printed: "2.5 µF". */
  readonly stop: (value: number) => string;
  readonly bands: readonly Band[];
  readonly mark?: number | "open";
}

const columns = 45;
/** Room for a value before its bar. */
const valueWidth = 22;
/** Longest line. */
const lineWidth = 92;
/** The ohms axis: from "lead or less" at 0.1 Ω to 10 MΩ, then one stop for OL. */
export const decades = {
  from: -1,
  to: 7,
  says: ["lead", "1", "10", "100", "1k", "10k", "100k", "1M", "10M"],
} as const;
const openColumn = columns - 1;
const lastOhmColumn = columns - 5;

/** Column of a value on the axis, 0 to `columns - 1`. */
function columnOf(scale: Scale, value: number | "open"): number {
  if (value === "open") return openColumn;
  if (scale.axis === "straight") return clamp(Math.round((value / scale.top) * (columns - 1)), columns - 1);
  const decade = Math.log10(Math.max(value, 1e-9));
  return clamp(Math.round(((decade - decades.from) / (decades.to - decades.from)) * lastOhmColumn), lastOhmColumn);
}

function clamp(column: number, last: number): number {
  return Math.min(Math.max(column, 0), last);
}

/** The scale as lines: axis labels, axis, a bar with its names below it for each band, the mark last. */
export function drawScale(scale: Scale): string[] {
  const indent = " ".repeat(valueWidth + 2);
  const lines = [indent + axisLabels(scale), indent + axisLine(scale)];
  for (const band of scale.bands) {
    const row = Array.from({ length: columns }, () => " ");
    const from = band.reach === "open" ? openColumn : columnOf(scale, band.reach.lo);
    const to = band.reach === "open" ? openColumn : columnOf(scale, band.reach.hi);
    for (let column = from; column <= to; column++) row[column] = "█";
    lines.push(`${band.value.padEnd(valueWidth)}  ${row.join("")}  ${band.odds ?? ""}`.trimEnd());
    lines.push(...wrap(band.says, lineWidth, "  ", "  "));
  }
  if (scale.mark !== undefined) {
    lines.push(`${"your reading".padEnd(valueWidth)}  ${" ".repeat(columnOf(scale, scale.mark))}▲`);
  }
  return lines;
}

function axisStops(scale: Scale): readonly (readonly [number, string])[] {
  if (scale.axis === "straight") {
    const stops = [0, 0.25, 0.5, 0.75, 1];
    return stops.map((share) => [columnOf(scale, share * scale.top), scale.stop(share * scale.top)] as const);
  }
  const stops = decades.says.map((label, i) => [columnOf(scale, 10 ** (decades.from + i)), label] as const);
  return [...stops, [openColumn, "OL"] as const];
}

function axisLabels(scale: Scale): string {
  const row = Array.from({ length: columns + 6 }, () => " ");
  for (const [column, label] of axisStops(scale)) {
    const start = Math.max(0, column - Math.floor(label.length / 2));
    for (let i = 0; i < label.length; i++) row[start + i] = label.charAt(i);
  }
  return scale.axis === "ohms" ? `${row.join("").trimEnd()} Ω` : row.join("").trimEnd();
}

function axisLine(scale: Scale): string {
  const row = Array.from({ length: columns }, () => "─");
  for (const [column] of axisStops(scale)) row[column] = "┼";
  row[0] = "├";
  row[columns - 1] = "┤";
  return row.join("");
}
