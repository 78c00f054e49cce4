// The door of `sheet`.
export type * from "./machine.ts";
