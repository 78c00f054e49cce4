// The door of `fault`.
export type * from "./mode.ts";
