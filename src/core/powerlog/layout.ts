import { csvRows } from "../csv/index.ts";
import { columnsOf, type LogColumns } from "./columns.ts";
import { type Decimal, numberIn } from "./number.ts";
import { orderTold, type StampForm, secondsOf, stampFormOf } from "./stamp.ts";

/** How one log is written. */
export interface Layout {
  readonly separator: string;
  readonly decimal: Decimal;
  readonly stamp: StampForm;
  readonly columns: LogColumns;
  /** Line of the first row of numbers. */
  readonly firstLine: number;
  /** Dates read either way, and no row of the log's head says which. */
  readonly isOrderOpen: boolean;
}

/** Tried in this order: a later one is taken only where it reads more rows. A decimal comma never goes with comma separators. */
const FORMS: readonly (readonly [string, Decimal])[] = [
  [";", "."],
  [";", ","],
  ["\t", "."],
  ["\t", ","],
  [",", "."],
  [",", ","],
];
/** So much of the text is looked at. */
const HEAD_LETTERS = 40_000;
const HEAD_ROWS = 200;

/** Finds separator, decimal sign, time and columns from the head of a log; undefined where nothing looks like rows of time and power. */
export function layoutOf(text: string): Layout | undefined {
  const cut = text.length > HEAD_LETTERS ? text.lastIndexOf("\n", HEAD_LETTERS) : text.length;
  const head = text.slice(0, cut > 0 ? cut : HEAD_LETTERS);
  let best: { readonly layout: Layout; readonly rows: number } | undefined;
  for (const [separator, decimal] of FORMS) {
    const found = readHead(head, separator, decimal);
    if (found !== undefined && found.rows > (best?.rows ?? 0)) best = found;
  }
  return best?.layout;
}

function readHead(head: string, separator: string, decimal: Decimal) {
  const rows = [];
  for (const row of csvRows(head, separator)) if (rows.push(row) === HEAD_ROWS) break;
  for (const [index, { fields, line }] of rows.entries()) {
    const above = rows[index - 1]?.fields;
    const names = above?.length === fields.length && above.some((name) => /[a-z]/i.test(name)) ? above : undefined;
    const written = stampFormOf(fields, names ?? []);
    if (written === undefined) continue;
    const numeric = fields.flatMap((field, at) => (numberIn(field, decimal) === undefined ? [] : [at]));
    const columns = columnsOf(names, numeric, written.columns);
    if (columns.power.length === 0) continue;
    const below = rows.slice(index);
    const order = below.map((row) => orderTold(row.fields[written.columns[0] ?? 0] ?? "")).find((told) => told);
    const stamp = { ...written, dayFirst: order !== "month first" };
    const isRow = (cells: readonly string[]): boolean =>
      secondsOf(cells, stamp) !== undefined &&
      columns.power.some(({ at }) => numberIn(cells[at] ?? "", decimal) !== undefined);
    const isOrderOpen = order === undefined && /^\s*\d{1,2}[-/]\d{1,2}[-/]/.test(fields[written.columns[0] ?? 0] ?? "");
    const layout: Layout = { separator, decimal, stamp, columns, firstLine: line, isOrderOpen };
    return { layout, rows: below.filter((row) => isRow(row.fields)).length };
  }
  return undefined;
}
