// The door of `fault`: the ways one machine can be at fault.
export type * from "./mode.ts";
export { modesOf } from "./modes.ts";
