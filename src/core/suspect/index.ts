// The door of `suspect`: possible faults with odds; one observation updates them; what nothing explains is named.
export type * from "./case.ts";
export { askEvidence, type EvidenceAnswer } from "./evidence.ts";
