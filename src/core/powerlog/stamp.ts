import { dayCount } from "../day/index.ts";

/** How the rows of one log say when. */
export interface StampForm {
  readonly name: "seconds" | "milliseconds" | "minutes" | "date and time" | "time of day";
  /** Columns that hold it: one, or a date and a time of day. */
  readonly columns: readonly number[];
  /** Of `1/2/2026`: which comes first. */
  readonly dayFirst: boolean;
}

export const DAY_SECONDS = 86_400;
const PLAIN = /^[+-]?\d+([.,]\d+)?$/;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*([ap]m)?$/i;
const ISO_DATE = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const OTHER_DATE = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/;
const ZONE = /\s*(?:(Z)|([+-])(\d{2}):?(\d{2}))$/i;

/**
 * The moment a row says, in seconds: since an epoch, since midnight, or since whatever the log counts from. Undefined when
 * the cells do not say it in this form.
 */
export function secondsOf(cells: readonly string[], form: StampForm): number | undefined {
  const [column, beside] = form.columns;
  const first = (cells[column ?? 0] ?? "").trim();
  switch (form.name) {
    case "seconds":
      return plain(first);
    case "milliseconds":
      return scaled(plain(first), 1 / 1000);
    case "minutes":
      return scaled(plain(first), 60);
    case "time of day":
      return clockSeconds(first);
    case "date and time":
      return beside === undefined
        ? dateAndClock(first, form.dayFirst)
        : joined(first, (cells[beside] ?? "").trim(), form.dayFirst);
  }
}

/** Which of a row's cells say when, and how; judged by the row itself and the names above it. */
export function stampFormOf(cells: readonly string[], names: readonly string[]): StampForm | undefined {
  return formBy(cells, names, true) ?? formBy(cells, names, false);
}

function formBy(cells: readonly string[], names: readonly string[], dayFirst: boolean): StampForm | undefined {
  const inOne = cells.findIndex((cell) => dateAndClock(cell.trim(), dayFirst) !== undefined);
  if (inOne >= 0) return { name: "date and time", columns: [inOne], dayFirst };
  const date = cells.findIndex((cell) => dayOf(cell.trim(), dayFirst) !== undefined);
  const clock = cells.findIndex((cell) => clockSeconds(cell.trim()) !== undefined);
  if (date >= 0 && clock >= 0) return { name: "date and time", columns: [date, clock], dayFirst };
  if (clock >= 0) return { name: "time of day", columns: [clock], dayFirst };
  const value = plain((cells[0] ?? "").trim());
  return value === undefined ? undefined : { name: plainUnit(names[0] ?? "", value), columns: [0], dayFirst };
}

/** Does a date with both orders open say that the month cannot come first, or the day? */
export function orderTold(text: string): "day first" | "month first" | undefined {
  const [, one = "", mark, other = ""] = OTHER_DATE.exec(text.trim().split(/[T\s,]+/)[0] ?? "") ?? [];
  if (mark === undefined) return undefined;
  if (mark === "." || Number(one) > 12) return "day first";
  return Number(other) > 12 ? "month first" : undefined;
}

/** Milliseconds since 1970 are beyond what any log counts in seconds. */
const FIRST_MILLISECONDS = 1e11;

function plainUnit(name: string, value: number): "seconds" | "milliseconds" | "minutes" {
  if (/(^|[^a-z])(ms|millis\w*)([^a-z]|$)/i.test(name) || Math.abs(value) >= FIRST_MILLISECONDS) return "milliseconds";
  return /(^|[^a-z])(min|minutes?|minuten)([^a-z]|$)/i.test(name) ? "minutes" : "seconds";
}

function plain(text: string): number | undefined {
  return PLAIN.test(text) ? Number(text.replace(",", ".")) : undefined;
}

function scaled(value: number | undefined, by: number): number | undefined {
  return value === undefined ? undefined : value * by;
}

function dateAndClock(text: string, dayFirst: boolean): number | undefined {
  const zone = ZONE.exec(text);
  const isZoned = zone !== null && /[T:]/.test(text.slice(0, zone.index));
  const local = isZoned ? text.slice(0, zone.index) : text;
  const [, date = "", clock = ""] = /^([^T\s,]+)(?:T|\s*,\s*|\s+)(.+)$/.exec(local) ?? [];
  const seconds = joined(date, clock, dayFirst);
  if (seconds === undefined || !isZoned || zone[1] !== undefined) return seconds;
  const offset = Number(zone[3]) * 3600 + Number(zone[4]) * 60;
  return seconds - (zone[2] === "-" ? -offset : offset);
}

function joined(date: string, clock: string, dayFirst: boolean): number | undefined {
  const day = dayOf(date, dayFirst);
  const seconds = clockSeconds(clock);
  return day === undefined || seconds === undefined ? undefined : day * DAY_SECONDS + seconds;
}

function clockSeconds(text: string): number | undefined {
  const match = CLOCK.exec(text);
  if (match === null) return undefined;
  const [, hours = "", minutes = "", seconds = "0", fraction = "", half] = match;
  const hour = half === undefined ? Number(hours) : (Number(hours) % 12) + (half.toLowerCase() === "pm" ? 12 : 0);
  if (hour > 24 || Number(minutes) > 59 || Number(seconds) > 60) return undefined;
  return hour * 3600 + Number(minutes) * 60 + Number(`${seconds}.${fraction || "0"}`);
}

/** Days since 1970-01-01 of a date that the calendar has. */
function dayOf(text: string, dayFirst: boolean): number | undefined {
  const iso = ISO_DATE.exec(text);
  if (iso !== null) return dayCount(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const other = OTHER_DATE.exec(text);
  if (other === null) return undefined;
  const [, one, mark, two, year = ""] = other;
  const whole = year.length === 2 ? 2000 + Number(year) : Number(year);
  return dayFirst || mark === "."
    ? dayCount(whole, Number(two), Number(one))
    : dayCount(whole, Number(one), Number(two));
}
