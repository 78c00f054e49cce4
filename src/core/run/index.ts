// The door of `run`: a machine with a fault, run through its programme; and the same machine dead on the meter.

export { checkRuns } from "./check-runs.ts";
export { DeadBench, type DeadState, deadCircuit } from "./dead.ts";
export { deckOf } from "./deck.ts";
export { isSource } from "./network.ts";
export type * from "./picture.ts";
export { openRunner, Runner, runMachine } from "./runner.ts";
export { type AtPlug, Solved } from "./solved.ts";
