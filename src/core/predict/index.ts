// The door of `predict`.
export type * from "./prediction.ts";
