const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** A day for a person: `4 March 2026`; the month in letters, so that nobody takes it for the day. */
export function dayText(date: string): string {
  const [year, month, day] = date.split("-").map(Number);
  return `${day} ${MONTHS[(month ?? 1) - 1]} ${year}`;
}

/** The day so many months later; the last of the month where that has fewer days. */
export function addMonths(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split("-").map(Number);
  const count = year * 12 + month - 1 + months;
  const [newYear, newMonth] = [Math.floor(count / 12), (count % 12) + 1];
  const isLeap = (newYear % 4 === 0 && newYear % 100 !== 0) || newYear % 400 === 0;
  const last = newMonth === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(newMonth) ? 30 : 31;
  const two = (value: number): string => String(value).padStart(2, "0");
  return [String(newYear).padStart(4, "0"), two(newMonth), two(Math.min(day, last))].join("-");
}
