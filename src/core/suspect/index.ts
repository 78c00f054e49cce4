// The door of `suspect`: possible faults with odds; one observation updates them; what nothing explains is named.
export { afterRemedy, type Remedied } from "./after-remedy.ts";
export type * from "./case.ts";
export { askEvidence, type EvidenceAnswer } from "./evidence.ts";
export { type Argument, type Explanation, explain, predictionSays } from "./explain.ts";
export { answersOf, foreseeing } from "./foresee.ts";
export type { Foresight } from "./foresight.ts";
export { KeptForesights } from "./kept-foresights.ts";
export { type Leg, type Legs, legs } from "./legs.ts";
export { liveHypotheses } from "./live.ts";
export { ForeseenCase } from "./make-case.ts";
export { natsTold } from "./nats-told.ts";
export { type CaseAsk, caseFrom, caseOn, openCase, openingCase } from "./open-case.ts";
export { askingSigns, signTests } from "./sign-tests.ts";
