// The door of `plan`: the next step by expected cost to a verified repair or an honest stop.
export { type Caution, type CautionCode, cautionsFor, generalOf } from "./cautions.ts";
export { byNewPart, type PlanCase } from "./ground.ts";
export { instrumentFor } from "./instrument.ts";
export { findingSteps, nextSteps, unansweredOf } from "./next-steps.ts";
export { waitFor } from "./offer-questions.ts";
export { type LoadPart, type Outlook, outlook } from "./outlook.ts";
export type * from "./plan.ts";
export { type AccessGroups, accessChain, type SetUpAct } from "./set-up.ts";
export { type StoredEnergy, storedEnergy } from "./stored-energy.ts";
export { whyOf } from "./why-open.ts";
export { ARRIVAL, type Repair, type WorkState } from "./work-state.ts";
