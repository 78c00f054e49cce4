import { dayCount } from "../day/index.ts";

const MOMENT = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}))?\s*(?:Z|([+-])(\d{2}):(\d{2}))$/;

/**
 * A moment with its distance from UTC, in seconds since 1970; undefined for what is none. Without that distance nobody in another
 * zone, and no machine, could tell when it is.
 *
 * @example momentOf("2026-03-04T10:30+01:00") === momentOf("2026-03-04T09:30Z")
 * @source RFC 3339, 5.6, the seconds left out at will
 */
export function momentOf(text: string): number | undefined {
  const [, day = "", hour, minute, second = "0", sign, hours = "0", minutes = "0"] = MOMENT.exec(text.trim()) ?? [];
  const [year = 0, month = 0, date = 0] = day.split("-").map(Number);
  const days = dayCount(year, month, date);
  if (days === undefined || Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return undefined;
  if (Number(hours) > 14 || Number(minutes) > 59) return undefined;
  const local = days * 86_400 + Number(hour) * 3600 + Number(minute) * 60 + Number(second);
  const ahead = Number(hours) * 3600 + Number(minutes) * 60;
  return local - (sign === "-" ? -ahead : ahead);
}
