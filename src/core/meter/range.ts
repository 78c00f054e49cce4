import type { Meter, MeterRange, Quantity, Shown } from "./meter.ts";

/** Half-width of the band that a maker's figure promises about a value: share of reading plus counts. */
export function limitOf(range: MeterRange, value: number): number {
  return range.shareOfReading * Math.abs(value) + range.counts * range.resolution;
}

/** Standard uncertainty of one reading, taking the promised band as rectangular.
 * @source GUM 4.3.7 */
export function standardUncertaintyOf(range: MeterRange, value: number): number {
  return limitOf(range, value) / Math.sqrt(3);
}

/** Ranges of a quantity, finest first. */
export function rangesOf(meter: Meter, quantity: Quantity): readonly MeterRange[] {
  return meter.ranges.filter((range) => range.quantity === quantity).sort((a, b) => a.top - b.top);
}

/** The finest range that can show the value; `undefined` when the meter shows OL, or has no such range. */
export function pickRange(meter: Meter, quantity: Quantity, value: number): MeterRange | undefined {
  return rangesOf(meter, quantity).find((range) => Math.abs(value) <= range.top);
}

/** Largest value that the meter shows of a quantity; Infinity where it measures no such thing. */
export function topOf(meter: Meter, quantity: Quantity): number {
  return rangesOf(meter, quantity).at(-1)?.top ?? Number.POSITIVE_INFINITY;
}

/** What the display would show of a value, without any error of the meter: rounded, nothing below its floor, or OL. */
export function shownBy(meter: Meter, quantity: Quantity, value: number): Shown {
  const range = pickRange(meter, quantity, value);
  if (range !== undefined) return { kind: "value", value: displayed(range, value) };
  return rangesOf(meter, quantity).length === 0 ? { kind: "value", value } : { kind: "over limit" };
}

/** A value rounded to the display's last digit; 0 below the floor. */
export function displayed(range: MeterRange, value: number): number {
  if (range.floor !== undefined && Math.abs(value) < range.floor) return 0;
  const decimals = Math.max(0, Math.ceil(-Math.log10(range.resolution) - 1e-9));
  return Number((Math.round(value / range.resolution) * range.resolution).toFixed(Math.min(decimals, 100)));
}
