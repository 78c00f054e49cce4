// The door of `powerlog`: what a log of the power at the plug shows, and what it says of a sheet's programme.
export { analysePower, type PowerAnalysis, type Stretch } from "./analysis.ts";
export { type AgainstSheet, againstSheet, HIDES, STEP_SAYS, type StepSeen } from "./compare.ts";
export { type ExpectedStep, expectedSteps } from "./expected.ts";
export { LOADS } from "./load.ts";
export { type PowerLog, readPowerLog } from "./read-log.ts";
