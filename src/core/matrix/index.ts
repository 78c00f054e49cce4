// The door of `matrix`: linear networks on one elimination schedule.
export { ComplexNetwork } from "./complex.ts";
export { type Network, roundOff } from "./network.ts";
export { RealNetwork } from "./real.ts";
export { type NodePair, type Schedule, schedule } from "./schedule.ts";
