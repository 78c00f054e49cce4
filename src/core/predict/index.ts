// The door of `predict`: what each probe shows under each fault, with tolerance.
export { type Atom, atomsOf, effectsOf, type Fault, FaultMap } from "./atom.ts";
export { openAtRest } from "./open-at-rest.ts";
export type * from "./prediction.ts";
export { type House, Predictor } from "./predictor.ts";
export { probeOf, stateName } from "./probe.ts";
export { MAINS_PLUG, type RailRule, railRule } from "./rails.ts";
export {
  type AmbiguityGroup,
  probeTests,
  probing,
  type Regime,
  type Test,
  type Testability,
  tellingApart,
  testability,
} from "./testability.ts";
export { neighbours, spread, tiedTo } from "./tied.ts";
export { handheldProbes, type ProbeClass, type UsualProbe, usualProbes } from "./usual-probes.ts";
