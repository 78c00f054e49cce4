// The door of `run`.
export type * from "./picture.ts";
export { openRunner, Runner, runMachine } from "./runner.ts";
export { type AtPlug, Solved } from "./solved.ts";
