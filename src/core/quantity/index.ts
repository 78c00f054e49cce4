// The door of `quantity`: numbers with units, tolerances and ranges; estimates whose errors keep their names.
export { isOverLimit, parseAmount, type Want } from "./amount.ts";
export { correlated } from "./correlated.ts";
export {
  add,
  applyFunction,
  correlation,
  covariance,
  divide,
  type Estimate,
  estimate,
  exactly,
  multiply,
  scale,
  subtract,
  uncertainty,
} from "./estimate.ts";
export { formatAmount, formatCode } from "./format.ts";
export { type Limits, parseLimits } from "./limits.ts";
export type * from "./rated.ts";
export { correlationOfPairs, effectiveDegrees, type Repeated, repeated } from "./repeated.ts";
export { isWide, standardUncertainty } from "./spread.ts";
export { isUnitCode, prefixExponent, type Unit, type UnitCode, unitOf } from "./unit.ts";
export { units } from "./unit-table.ts";
