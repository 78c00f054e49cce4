// The door of `meter`.
export type * from "./meter.ts";
