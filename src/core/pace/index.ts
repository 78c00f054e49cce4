// The door of `pace`: long work in pieces, done one by one or to its end.
export { type Pieces, toItsEnd } from "./pieces.ts";
