// The door of `circuit`: elements and sources to volts, amperes, ohms and their partials.
export type { Circuit, Guard, Ohmmeter, Shape, Solver } from "./circuit.ts";
export { compile, strictGuard, tableGuard } from "./compile.ts";
