// The door of `safety`: the tests after a repair, their limits by country and edition, and what they say.
export { judgeSafety, type SafetyFindings, type SafetyLine, type SafetyReading, type SafetyVerdict } from "./judge.ts";
export { type PlugDischarge, plugDischarge } from "./plug-discharge.ts";
export { readSafetyRules, unitOfTest } from "./read-rules.ts";
export {
  METERED,
  type MeteredTest,
  PROTECTION_CLASSES,
  type ProtectionClass,
  type SafetyRules,
  type SafetyTest,
} from "./rules.ts";
