// The door of `trial`: machines with a hidden fault, technicians who work on them, and what it cost.
//
// All three ways of working meet the same machines with the same covers, minutes, prices, tools and safety duties: covers off
// only with the plug out and proved dead, a proof of every repair, and a look why a protector opened before it runs again.
// They are told the same on the telephone: the five questions that tell most of this type before anything is known, and
// what made the customer call.
//
// - plan (by-plan): the first step of `nextSteps`, each time, with the work it is given on a phone.
// - swap (by-swapping): the likeliest part or cause by what was told, its best remedy at once, proved by watching.
// - test (by-testing): parts and causes in a fixed order of odds over the price of the usual test, each tested before it
//   is mended; then, on the chance, what is left.
//
// Both rivals correct their odds by hand as tests pass and tries fail, and, as the plan does, stop where going on costs
// more than it saves. No number of theirs was set to make them dear.
//
// A machine works when nothing that was complained of is seen any more in a quarter of an hour; what does not show on
// site is taken for mended. A job comes back when something still wrong shows at home, when a protector was mended and
// its cause was not, or when a repair did not hold, by its own odds; it bears what the shop loses by a return, and no more,
// even where the fault was never found: a kindness to whoever guesses. Unsolved is a job that was given up; it bears
// what is lost with the machine. Of the plan it is told in how many of those the fault was known: not worth mending. A wrong part is a new part fitted in place of one that was not at fault: cleaning,
// advice and remade connections are no parts.
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
