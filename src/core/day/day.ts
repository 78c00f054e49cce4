/**
 * Days since 1970-01-01 of a day that the calendar has; undefined for one that it has not.
 *
 * @source proleptic Gregorian calendar (ISO 8601), counted in years that begin in March
 */
export function dayCount(year: number, month: number, day: number): number | undefined {
  return day >= 1 && day <= daysIn(year, month) ? countFrom(year, month, day) : undefined;
}

/** Days of a month; none of one that there is not. */
function daysIn(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}

/** Is this a day that the calendar has, written as ISO 8601 does: 2026-03-04? */
export function isDay(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  return match !== null && dayCount(Number(match[1]), Number(match[2]), Number(match[3])) !== undefined;
}

/**
 * The day so many days after another; the core has no clock, so days are text.
 *
 * @param date  ISO 8601: 2026-02-27
 */
export function addDays(date: string, days: number): string {
  const [year = 0, month = 1, day = 1] = date.split("-").map(Number);
  const number = countFrom(year, month, day) + DAYS_TO_1970 + days;
  const era = Math.floor(number / 146_097);
  const dayOfEra = number - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1_460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const newDay = dayOfYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  const newMonth = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const newYear = yearOfEra + era * 400 + (newMonth <= 2 ? 1 : 0);
  return [String(newYear).padStart(4, "0"), two(newMonth), two(newDay)].join("-");
}

/** The day so many months later, or earlier; the last of the month where that has fewer days. */
export function addMonths(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split("-").map(Number);
  const count = year * 12 + month - 1 + months;
  const [newYear, newMonth] = [Math.floor(count / 12), (((count % 12) + 12) % 12) + 1];
  const newDay = Math.min(day, daysIn(newYear, newMonth));
  return [String(newYear).padStart(4, "0"), two(newMonth), two(newDay)].join("-");
}

/** From 1 March of year 0. */
const DAYS_TO_1970 = 719_468;

/** Years that begin in March end with the day that comes and goes. */
function countFrom(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const inEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + inEra - DAYS_TO_1970;
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
