// The door of `trace`: what lies between two points of a machine, in order, and the whole of it by branches, for a drawing.
export { type Branch, type BranchPoint, branchesOf } from "./branches.ts";
export { type Symbol, type Traced, type TracedJoint, type TracedPart, traceBetween } from "./trace.ts";
