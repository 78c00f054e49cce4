// The door of `proof`: what repeated operations, a contact at load and a heat-up prove of a repair.
export { type ContactAtLoad, contactOfDrop, contactOfOhms } from "./contact.ts";
export { type HeatUp, type HeatUpProof, proveByHeatUp } from "./heat-up.ts";
export { type OperationsProof, proveByOperations, USUAL_AIM } from "./operations.ts";
