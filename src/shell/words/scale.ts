/**
 * The reading scale in text: one axis, a band for each fault that is still possible, a mark where the meter stood.
 * Ohms run by decades between the stops "lead or less" and OL; everything else runs straight from zero.
 */
export interface Band {
  /** Whose band it is, in the technician's words. */
  readonly says: string;
  /** Where the reading would lie; `open` for OL. */
  readonly reach: { readonly lo: number; readonly hi: number } | "open";
  /** "24 – 27 Ω", as printed at the end of the line. */
  readonly value: string;
}

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
const labelWidth = 22;
/** The ohms axis: from "lead or less" at 0.1 Ω to 10 MΩ, then one stop for OL. */
const decades = { from: -1, to: 7 };
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

/** The scale as lines: axis labels, axis, one line a band, the mark last. Width at most 100 characters. */
export function drawScale(scale: Scale): string[] {
  const indent = " ".repeat(labelWidth + 2);
  const lines = [indent + axisLabels(scale), indent + axisLine(scale)];
  for (const band of scale.bands) {
    const row = Array.from({ length: columns }, () => " ");
    const from = band.reach === "open" ? openColumn : columnOf(scale, band.reach.lo);
    const to = band.reach === "open" ? openColumn : columnOf(scale, band.reach.hi);
    for (let column = from; column <= to; column++) row[column] = "█";
    lines.push(`${toWidth(band.says, labelWidth)}  ${row.join("")}  ${band.value}`);
  }
  if (scale.mark !== undefined) {
    lines.push(`${toWidth("your reading", labelWidth)}  ${" ".repeat(columnOf(scale, scale.mark))}▲`);
  }
  return lines;
}

function toWidth(text: string, width: number): string {
  return text.length <= width ? text.padEnd(width) : `${text.slice(0, width - 1)}…`;
}

function axisStops(scale: Scale): readonly (readonly [number, string])[] {
  if (scale.axis === "straight") {
    const stops = [0, 0.25, 0.5, 0.75, 1];
    return stops.map((share) => [columnOf(scale, share * scale.top), scale.stop(share * scale.top)] as const);
  }
  const labels = ["lead", "1", "10", "100", "1k", "10k", "100k", "1M", "10M"];
  const stops = labels.map((label, i) => [columnOf(scale, 10 ** (decades.from + i)), label] as const);
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
