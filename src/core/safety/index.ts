// The door of `safety`: the tests after a repair, their limits by country and edition, and what they say.

export { type InsulationCoverage, insulationCoverage, type Missed, type WayToReach } from "./coverage.ts";
export { closeOutGate, type Gate, type GateFacts, type GateReason } from "./gate.ts";
export { judgeSafety, type SafetyFindings, type SafetyLine, type SafetyReading, type SafetyVerdict } from "./judge.ts";
export { type PlugDischarge, plugDischarge } from "./plug-discharge.ts";
export { readSafetyRules, unitOfTest } from "./read-rules.ts";
export {
  METERED,
  type MeteredTest,
  PROTECTION_CLASSES,
  type ProtectionClass,
  SAFETY_TESTS,
  type SafetyRow,
  type SafetyRules,
  type SafetyTest,
  type Tested,
} from "./rules.ts";
