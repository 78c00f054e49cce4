// The door of `part`.

export type * from "./expression.ts";
export type * from "./formula.ts";
export type * from "./kind.ts";
