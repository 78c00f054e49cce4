import type { Random } from "../chance/index.ts";
import {
  displayed,
  leadsOf,
  type Meter,
  pickRange,
  pickUpOf,
  type Quantity,
  rangesOf,
  type Shown,
} from "../meter/index.ts";

/** What goes wrong between a machine and what is written down. */
export interface Errors {
  /** Share of readings taken at a wrong point or in a wrong moment (from memory). */
  readonly slips: number;
  /** Meters err within their promised limits, leads are not quite nulled. */
  readonly meters: boolean;
  /** Witnesses err, and eyes overlook, as the sheet says. */
  readonly witnesses: boolean;
}

export const NO_ERRORS: Errors = { slips: 0, meters: false, witnesses: false };
export const USUAL_ERRORS: Errors = { slips: 0.02, meters: true, witnesses: true };

/** Quantities of which nothing at all is shown as over limit. */
const OPEN_IS_OVER_LIMIT: ReadonlySet<Quantity> = new Set<Quantity>(["ohms", "insulation ohms"]);

/**
 * What one meter of one technician shows of a true value. Its gain is off by the same share all day; its last digits
 * differ from reading to reading; both evenly within what its maker promises. Beside live wires its leads pick something up.
 */
export function shownOf(
  meter: Meter,
  quantity: Quantity,
  value: number,
  random: { readonly day: Random; readonly reading: Random } | undefined,
): Shown {
  if (!Number.isFinite(value)) {
    return OPEN_IS_OVER_LIMIT.has(quantity) || rangesOf(meter, quantity).length > 0
      ? { kind: "over limit" }
      : { kind: "value", value: 0 };
  }
  const leads =
    random === undefined ? 0 : leadsOf(meter, quantity, "nulled").u * Math.sqrt(3) * even(random.day, "leads");
  const range = pickRange(meter, quantity, value + leads);
  if (range === undefined) {
    return rangesOf(meter, quantity).length === 0 ? { kind: "value", value } : { kind: "over limit" };
  }
  if (random === undefined) return { kind: "value", value: displayed(range, value) };
  const gain = range.shareOfReading * even(random.day, `${meter.id} ${quantity} ${range.top}`);
  const digits = range.counts * range.resolution * (2 * random.reading.uniform() - 1);
  const read = (value + leads + pickedUp(quantity, random.reading)) * (1 + gain) + digits;
  if (Math.abs(read) > range.top && pickRange(meter, quantity, read) === undefined) return { kind: "over limit" };
  return { kind: "value", value: displayed(range, value >= 0 ? Math.max(0, read) : read) };
}

/** What the leads pick up beside live wires, now and then. */
function pickedUp(quantity: Quantity, reading: Random): number {
  const pickUp = pickUpOf(quantity);
  const stray = reading.fork("pick-up");
  return pickUp === undefined || stray.uniform() >= pickUp.often ? 0 : pickUp.sigma * stray.normal();
}

function even(random: Random, label: string): number {
  return 2 * random.fork(label).uniform() - 1;
}
