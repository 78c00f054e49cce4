import { type Estimate, estimate } from "../quantity/index.ts";
import { leadsOf } from "./leads.ts";
import type { Leads, Meter, Quantity } from "./meter.ts";
import { pickRange, standardUncertaintyOf } from "./range.ts";

/**
 * A reading as an estimate of the true value: leads taken off, and the errors by name. The gain of a range and the leads are shared
 * by all readings of that meter; counts belong to the one reading, told apart by `reading`. `undefined` when no range of
 * the meter shows such a value.
 *
 * @source GUM 4.3.7 (rectangular limits) and 5.1.2
 */
export function readingEstimate(
  meter: Meter,
  quantity: Quantity,
  value: number,
  leads: Leads = "nulled",
  reading = "1",
): Estimate | undefined {
  const range = pickRange(meter, quantity, value);
  if (range === undefined) return undefined;
  const name = `${meter.id}/${quantity} ${range.top}`;
  const lead = leadsOf(meter, quantity, leads);
  const gain = (range.shareOfReading * value) / Math.sqrt(3);
  // the promised band is one rectangle, so the parts are split to give limit/√3 together, not each its own rectangle
  const own = Math.sqrt(Math.max(0, standardUncertaintyOf(range, value) ** 2 - gain ** 2));
  return estimate(value - lead.ohms, {
    [`${name}/gain`]: gain,
    [`${name}/counts ${reading}`]: own,
    ...(lead.u > 0 ? { [`${meter.id}/leads`]: lead.u } : {}),
  });
}
