import { localDay } from "../shell/today.ts";

/** A moment with its distance from UTC, by the device's clock and zone: `2026-03-04T10:30+01:00` (RFC 3339). */
export function localMoment(moment: Date): string | undefined {
  if (Number.isNaN(moment.getTime())) return undefined;
  const two = (n: number): string => String(n).padStart(2, "0");
  const ahead = -moment.getTimezoneOffset();
  const zone = `${ahead < 0 ? "-" : "+"}${two(Math.floor(Math.abs(ahead) / 60))}:${two(Math.abs(ahead) % 60)}`;
  return `${localDay(moment)}T${two(moment.getHours())}:${two(moment.getMinutes())}${zone}`;
}
