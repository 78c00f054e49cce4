// The door of `sign`.
export type * from "./observation.ts";
