// The door of `matrix`: linear networks on one elimination schedule, in double and in double-double arithmetic.
export { ComplexNetwork } from "./complex.ts";
export { type Network, roundOff } from "./network.ts";
export { RealNetwork } from "./real.ts";
export { type NodePair, type Schedule, schedule } from "./schedule.ts";
export * from "./wide.ts";
export * from "./wide-complex.ts";
export { type Bounded, WideNetwork } from "./wide-network.ts";
export { unitPhasor } from "./wide-phasor.ts";
