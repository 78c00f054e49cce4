import { dayText } from "../../../core/day/index.ts";
import { localDay } from "./today.ts";

/** A moment where the device is, the day as on a paper: "4 March 2026, 10:30". */
export function whenText(time: string | number): string {
  const moment = new Date(time);
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${dayText(localDay(moment))}, ${two(moment.getHours())}:${two(moment.getMinutes())}`;
}
