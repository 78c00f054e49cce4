// The door of `circuit`.
export type * from "./circuit.ts";
