// The door of `quantity`.
export type * from "./rated.ts";
