import { isDay } from "../day/index.ts";
import type { Cursor } from "../part/index.ts";

/** A day of the calendar, as ISO 8601 writes it. */
export function readDay(at: Cursor | undefined): string | undefined {
  const text = at?.text("a day: 2026-03-04");
  if (at === undefined || text === undefined) return undefined;
  return isDay(text) ? text : at.refuse("job.date", "a day: 2026-03-04");
}
