// The door of `suspect`: possible faults with odds; one observation updates them; what nothing explains is named.
export type * from "./case.ts";
export { askEvidence, type EvidenceAnswer } from "./evidence.ts";
export type { Foresight } from "./foresight.ts";
export { liveHypotheses } from "./live.ts";
export { ForeseenCase } from "./make-case.ts";
export { type CaseAsk, caseFrom, caseOn, openCase } from "./open-case.ts";
