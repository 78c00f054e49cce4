// The door of `meter`: what a display says of the true value, and what the meter disturbs.
export { conformity, guarded, passChance, type Risks, risksOf, type Verdict } from "./conformity.ts";
export { ohmsAt20, windingFactor, windingRise } from "./copper.ts";
export { readingEstimate } from "./estimate.ts";
export { formatDisplayed, formatShown } from "./format-shown.ts";
export { leadsOf } from "./leads.ts";
export {
  logChanceShown,
  prepareReading,
  type ReadingChance,
  type ReadingSetUp,
  type SingleShown,
} from "./likelihood.ts";
export type * from "./meter.ts";
export { meterSchema } from "./meter-schema.ts";
export { type Ntc, ntcDegrees, ntcModelError, ntcOhms } from "./ntc.ts";
export { type PickUp, pickUpOf } from "./pick-up.ts";
export { pt100Degrees, pt100Ohms, pt100Tolerance } from "./pt100.ts";
export { quantityOf } from "./quantity-of-unit.ts";
export { measured, quantities, unitOfQuantity } from "./quantity-unit.ts";
export { displayed, limitOf, pickRange, rangesOf, shownBy, standardUncertaintyOf, topOf } from "./range.ts";
export { readMeter } from "./read-meter.ts";
export { parseShown, parseShownBatch } from "./shown.ts";
export type { Term } from "./term.ts";
export { beepChance, wordCurve } from "./words.ts";
