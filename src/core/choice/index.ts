// The door of `choice`: what a customer can choose between, what it costs and promises, and where a repair stops paying.
export type * from "./choice.ts";
export { type ChoiceFacts, choicesOf } from "./choices.ts";
export { dutyFor, type ModelDays, readDuties, type SparePartDuty, type SparePartRule } from "./duty.ts";
export { lifeOf, readLives, type ServiceLife } from "./life.ts";
export { breakEvenYears, type RepairLimit, repairLimit } from "./repair-limit.ts";
export type { Spread } from "./spread.ts";
export type { Way } from "./way.ts";
