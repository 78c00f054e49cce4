import { readJob, type WrittenEvent } from "../../../core/ledger/index.ts";

/** Why events would not be read back, a sentence each; none: they may be written. */
export function eventFaults(events: readonly WrittenEvent[]): readonly string[] {
  const bodies = events.map(({ kind, body }) => ({ [kind]: body }));
  const read = readJob(JSON.stringify({ format: "faultwright-job/1", job: "check", sheet: "check", events: bodies }));
  return read.ok ? [] : read.issues.map(({ found, expected }) => `${found}: ${expected}`);
}
