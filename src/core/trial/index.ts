// The door of `trial`: machines with a hidden fault, technicians who work on them, and what it cost.
export { type Bill, billOf } from "./bill.ts";
export { byPlan } from "./by-plan.ts";
export { bySwapping } from "./by-swapping.ts";
export { byTesting } from "./by-testing.ts";
export { type DrawnMachine, type DrawOptions, drawMachine, withNumbers } from "./drawn-machine.ts";
export { type Errors, NO_ERRORS, USUAL_ERRORS } from "./errors.ts";
export { type Bench, Hands } from "./hands.ts";
export { HiddenMachine, Truth } from "./hidden-machine.ts";
export type { History, Remedy } from "./history.ts";
export { type StrategySummary, type Summary, summaryOf } from "./summary.ts";
export { type Interval, meanOf, shareOf } from "./tally.ts";
export { type Desk, prove, type Technician } from "./technician.ts";
export {
  deskOf,
  groupCount,
  groupSize,
  type MachineType,
  type Met,
  meetMachine,
  type Played,
  playGroup,
  questionsOf,
  STRATEGIES,
  type Strategy,
  type TrialAsk,
  typeOf,
  workOn,
} from "./trial.ts";
export type { WrongSheet } from "./wrong-sheet.ts";
