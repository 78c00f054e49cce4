import { type Quantity, unitOfQuantity } from "../../../core/meter/index.ts";
import type { Band } from "../../../core/plan/index.ts";
import { formatAmount } from "../../../core/quantity/index.ts";
import { axisOf, roundTop } from "../../words/reading.ts";
import { decades } from "../../words/scale.ts";

/** Where values stand on the drawn scale, in the units of its drawing (360 wide). */
export interface Axis {
  readonly left: number;
  readonly right: number;
  readonly stops: readonly { readonly at: number; readonly says: string }[];
  at(value: number | "open"): number;
  reach(reach: Band["reach"]): readonly [number, number];
}

const left = 14;
const right = 346;
/** OL has a place of its own beyond the last decade. */
const lastOhm = 310;

/** The axis of a quantity: ohms by decades from 0.1 to 10 M and OL; all else straight from zero to a round top. */
export function axisFor(quantity: Quantity, bands: readonly Band[]): Axis {
  return axisOf(quantity) === "ohms" ? ohmsAxis() : straightAxis(quantity, bands);
}

function ohmsAxis(): Axis {
  const at = (value: number | "open"): number => {
    if (value === "open" || value === Number.POSITIVE_INFINITY) return right - 8;
    const decade = Math.log10(Math.max(value, 1e-9));
    return clamp(left + ((decade - decades.from) / (decades.to - decades.from)) * (lastOhm - left), left, lastOhm);
  };
  const stops = decades.says.map((says, i) => ({ at: at(10 ** (decades.from + i)), says }));
  return { left, right, at, reach: reachBy(at), stops: [...stops, { at: at("open"), says: "OL" }] };
}

function straightAxis(quantity: Quantity, bands: readonly Band[]): Axis {
  const highest = Math.max(0, ...bands.map(({ reach }) => (typeof reach === "object" && "hi" in reach ? reach.hi : 0)));
  const end = roundTop(highest);
  const at = (value: number | "open"): number =>
    value === "open" ? right : clamp(left + (value / end) * (right - left), left, right);
  const stops = [0, 0.25, 0.5, 0.75, 1].map((share) => ({
    at: at(share * end),
    says: share === 0 ? "0" : formatAmount(share * end, unitOfQuantity(quantity), 2),
  }));
  return { left, right, at, reach: reachBy(at), stops };
}

function reachBy(at: (value: number | "open") => number) {
  return (reach: Band["reach"]): readonly [number, number] => {
    if (reach === "open") return [at("open") - 6, at("open") + 6];
    if ("word" in reach) return [left, left];
    return [at(reach.lo), at(reach.hi)];
  };
}

function clamp(x: number, least: number, most: number): number {
  return Math.min(Math.max(x, least), most);
}
