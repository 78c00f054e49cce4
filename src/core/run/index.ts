// The door of `run`.
export type * from "./picture.ts";
