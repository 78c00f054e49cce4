// The door of `circuit`: elements and sources to volts, amperes, ohms and their partials.
export type { Circuit, Ohmmeter, Shape, Solver } from "./circuit.ts";
export { compile } from "./compile.ts";
