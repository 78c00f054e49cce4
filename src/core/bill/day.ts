/** Days before the first of each month in a year that begins in March. @source proleptic Gregorian calendar, counted from 1 March of year 0 */
function dayNumber(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146_097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
}

/**
 * The day so many days after another; the core has no clock, so days are text.
 *
 * @param date  ISO 8601: 2026-02-27
 */
export function addDays(date: string, days: number): string {
  const [year = 0, month = 1, day = 1] = date.split("-").map(Number);
  const number = dayNumber(year, month, day) + days;
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

function two(value: number): string {
  return String(value).padStart(2, "0");
}
