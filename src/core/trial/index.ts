// The door of `trial`: machines with a hidden fault, technicians who work on them, and what it cost.
export { type Bill, billOf, type Spent, spentAlong } from "./bill.ts";
export { byPlan } from "./by-plan.ts";
export { bySwapping } from "./by-swapping.ts";
export { byTesting } from "./by-testing.ts";
export { findMachine, type Met, meetMachine, questionsOf, toldTo, workOn } from "./call.ts";
export { type DrawnMachine, type DrawOptions, drawMachine, withNumbers } from "./drawn-machine.ts";
export { type Errors, NO_ERRORS, USUAL_ERRORS } from "./errors.ts";
export { type Bench, Hands } from "./hands.ts";
export { HiddenMachine, Truth } from "./hidden-machine.ts";
export type { History, Remedy } from "./history.ts";
export { deskOf, type MachineType, typeOf } from "./machine-type.ts";
export { type SheetSummary, type StrategySummary, type Summary, summaryOf } from "./summary.ts";
export type { Interval } from "./tally.ts";
export { type Desk, foldOf, prove, type Technician } from "./technician.ts";
export { blockCount, type Played, playBlock, playMachine, STRATEGIES, type Strategy, type TrialAsk } from "./trial.ts";
export { WRONG_SHEETS, type WrongSheet } from "./wrong-sheet.ts";
