// The door of `ledger`: one job as a list of events, and what it comes to.
export { type Account, accountOf, type Told } from "./account.ts";
export { type Awaited, type AwaitedBy, awaitedOf } from "./awaited.ts";
export { type BelievedJob, believeJob, type Carried } from "./believe-job.ts";
export { type CloseOut, closeOutOf, likeliest } from "./close-out.ts";
export { type Closing, closingOf, type Proved, type ProvedBy } from "./closing.ts";
export type * from "./closing-event.ts";
export { CLOSE_OUT_CHECKS } from "./closing-event.ts";
export { foldJob, type JobState, type Noted } from "./fold-job.ts";
export type * from "./job.ts";
export { KeptRepairs } from "./kept-repairs.ts";
export { knownAnswers, knownDifferences, withdrawnEvents } from "./known.ts";
export { loggedPower } from "./logged-power.ts";
export { type MachineNames, namesOf } from "./machine-names.ts";
export { momentOf } from "./moment.ts";
export type * from "./money-event.ts";
export { type Meaning, NameBook } from "./name-book.ts";
export type { PutBackItem } from "./put-back.ts";
export { readDay } from "./read-day.ts";
export { type ReadGood, readGood } from "./read-good.ts";
export { readJob } from "./read-job.ts";
export { VALUE_KEYS } from "./read-measured.ts";
export {
  type JobEnd,
  type JobHead,
  type JobRecord,
  type LedgerEvent,
  recordOf,
  type WrittenJob,
  withdrawnIn,
  writtenHead,
  writtenJob,
} from "./record.ts";
export type { Energised, RulesOf, SafetyTaken } from "./safety-row.ts";
export { schemaOf, WRITTEN_FORMS, type WrittenForm } from "./schema-of.ts";
export { type Verification, verificationOf } from "./verification.ts";
export {
  type JobGround,
  openedCase,
  openingJob,
  planning,
  planOf,
  type WorkedJob,
  workingOut,
  workOut,
} from "./work-out.ts";
export { type WrittenEvent, writtenAct, writtenAnswer, writtenQuestion } from "./written-answer.ts";
export { writtenEvents } from "./written-event.ts";
