/** Today where the device is, ISO 8601. */
export function today(): string {
  return localDay(new Date());
}

/** The day of a moment where the device is, ISO 8601. */
export function localDay(moment: Date): string {
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}
