// The door of `trace`: what lies between two points of a machine, in order, for a drawing.
export { type Symbol, type Traced, type TracedJoint, type TracedPart, traceBetween } from "./trace.ts";
