// The door of `ledger`: one job as a list of events, and what it comes to.
export { foldJob, type JobState, knownAnswers, knownDifferences, type Noted } from "./fold-job.ts";
export type * from "./job.ts";
export { type MachineNames, namesOf } from "./machine-names.ts";
export { readJob } from "./read-job.ts";
export { schemaOf, type WrittenForm } from "./schema-of.ts";
