import { type Cursor, closed, numberFrom, type Schema, says, TEXT, YES_NO } from "../part/index.ts";
import { momentOf } from "./moment.ts";
import type { VisitEvent } from "./visit-event.ts";

const VISIT_KEYS = ["at", "minutes", "number", "cancelled"] as const;
/** Nobody comes a hundred times. */
const MOST_VISITS = 99;
/** Where nothing is said: an hour. */
const USUAL_MINUTES = 60;
const MOST_MINUTES = 1440;

/** Kind of event about visits → how its body is read. */
export const VISIT_READERS = { visit: readVisit };

function readVisit(at: Cursor): VisitEvent | undefined {
  at.onlyKeys(VISIT_KEYS);
  const number = at.field("number")?.number(1, MOST_VISITS) ?? 1;
  if (!Number.isInteger(number)) return at.refuse("job.visit", "number: a whole number from 1");
  if (at.field("cancelled")?.yesNo() === true) return { kind: "visit", number };
  const moment = at.need("at", "at: 2026-03-04T10:30+01:00, or cancelled: yes");
  const text = moment?.text("a moment: 2026-03-04T10:30+01:00");
  const minutes = at.field("minutes")?.number(1, MOST_MINUTES) ?? USUAL_MINUTES;
  if (moment === undefined || text === undefined) return undefined;
  if (momentOf(text) === undefined) {
    return moment.refuse("job.moment", "a moment with its distance from UTC: 2026-03-04T10:30+01:00");
  }
  return { kind: "visit", number, when: { at: text, minutes } };
}

/** Schemas of the events about visits. */
export const VISIT_EVENTS: Readonly<Record<keyof typeof VISIT_READERS, Schema>> = {
  visit: closed(VISIT_KEYS, {
    at: says("when it begins: 2026-03-04T10:30+01:00", TEXT),
    minutes: says("how long it takes", numberFrom(1, MOST_MINUTES)),
    number: says("which visit of this job, 1 when silent", numberFrom(1, MOST_VISITS)),
    cancelled: says("it was called off", YES_NO),
  }),
};

/** A visit as a job file writes it. */
export function writtenVisit({ number, when }: VisitEvent) {
  return { kind: "visit", body: { ...(when ?? { cancelled: "yes" }), number } };
}
