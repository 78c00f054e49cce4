// The door of `plan`: the next step by expected cost to a verified repair or an honest stop.
export { instrumentFor, quantityOf } from "./instrument.ts";
export { probeOf, stateName } from "./probe.ts";
export { ARRIVAL, type Repair, type WorkState } from "./work-state.ts";
