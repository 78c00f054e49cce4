import type { Cursor } from "../part/index.ts";

/** A day of the calendar, as ISO 8601 writes it. */
export function readDay(at: Cursor | undefined): string | undefined {
  const text = at?.text("a day: 2026-03-04");
  if (at === undefined || text === undefined) return undefined;
  return isDay(text) ? text : at.refuse("job.date", "a day: 2026-03-04");
}

/** Is this a day that the calendar has, written as ISO 8601 does? */
export function isDay(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return day >= 1 && day <= ([31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0);
}
