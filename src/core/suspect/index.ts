// The door of `suspect`.
export type * from "./case.ts";
