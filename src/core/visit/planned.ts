import { accept, type Checked, type Issue, refuse } from "../issue/index.ts";
import { accountOf, type Job, momentOf, withdrawnEvents } from "../ledger/index.ts";
import type { Party } from "../money/index.ts";
import { calendarEntry } from "./calendar-entry.ts";
import { contactCard } from "./contact-card.ts";

/** A visit of a job as it stands by its events. */
export interface PlannedVisit {
  readonly number: number;
  /** As agreed last: RFC 3339, minutes. */
  readonly at: string;
  readonly minutes: number;
  readonly isCancelled: boolean;
  /** How often it was changed since it was first agreed; a calendar goes by it. */
  readonly sequence: number;
}

/** The visits that a job's events tell of, by their numbers. What was taken back counts as a change, since it was told before. */
export function visitsOf(job: Job): readonly PlannedVisit[] {
  const withdrawn = withdrawnEvents(job);
  const visits = new Map<number, PlannedVisit>();
  for (const event of job.events) {
    if (event.kind !== "visit") continue;
    const isOut = withdrawn.has(event.id);
    const before = visits.get(event.number);
    const sequence = (before === undefined ? 0 : before.sequence + 1) + (isOut ? 1 : 0);
    if (isOut && before !== undefined) visits.set(event.number, { ...before, sequence });
    else if (event.when !== undefined)
      visits.set(event.number, { ...event.when, number: event.number, isCancelled: isOut, sequence });
    else if (before !== undefined) visits.set(event.number, { ...before, isCancelled: true, sequence });
  }
  return [...visits.values()].sort((a, b) => a.number - b.number);
}

/** Who comes, and what to: what a job does not say of itself. */
export interface VisitFacts {
  readonly shop: Party;
  /** "tumble dryer" */
  readonly appliance: string;
}

/**
 * One visit of a job as a calendar entry: the last agreed where no number is told.
 *
 * @param made  when this version is made, seconds since 1970
 */
export function visitEntry(job: Job, facts: VisitFacts, made: number, number?: number): Checked<string> {
  const visits = visitsOf(job);
  const visit = number === undefined ? visits.at(-1) : visits.find((one) => one.number === number);
  const begins = visit === undefined ? undefined : momentOf(visit.at);
  if (visit === undefined || begins === undefined) {
    const expected =
      visits.length === 0 ? "a job with a visit agreed" : `one of ${visits.map((one) => one.number).join(", ")}`;
    const hint = 'Write it into the job: visit: {at: "2026-03-04T10:30+01:00"}';
    return refuse(lacking("visit.none", number === undefined ? "no visit" : `visit ${number}`, expected, hint));
  }
  const { shop, appliance } = facts;
  const { customer } = accountOf(job);
  const place = customer === undefined ? "" : addressOf(customer);
  const told = [
    job.complaint,
    ...(customer?.phone === undefined ? [] : [customer.phone]),
    `${shop.name} ${shop.phone ?? ""}`.trim(),
  ];
  return accept(
    calendarEntry({
      uid: `${idOf(job)}-visit-${visit.number}@${domainOf(shop)}`,
      sequence: visit.sequence,
      isCancelled: visit.isCancelled,
      begins,
      ends: begins + 60 * visit.minutes,
      made,
      summary: `${shop.name}: ${appliance}${customer === undefined ? "" : `, ${customer.name}`}`,
      ...(place === "" ? {} : { place }),
      description: told.join("\n"),
      ...(shop.email === undefined ? {} : { organizer: { name: shop.name, email: shop.email } }),
    }),
  );
}

/** The customer of a job as a contact card; or that the job names none. */
export function customerCard(job: Job, shop: Party): Checked<string> {
  const { customer } = accountOf(job);
  if (customer === undefined) {
    return refuse(
      lacking(
        "visit.no-customer",
        "no customer",
        "a job that names its customer",
        "Write it into the job: customer: {name: ...}",
      ),
    );
  }
  return accept(contactCard(customer, `${idOf(job)}@${domainOf(shop)}`));
}

function addressOf({ lines, postcode, town }: Party): string {
  const last = [postcode, town].filter((part) => part !== undefined).join(" ");
  return [...lines, ...(last === "" ? [] : [last])].join(", ");
}

/** Letters, digits and dashes of the job's number. */
function idOf(job: Job): string {
  return job.id.replaceAll(/[^\p{L}\p{N}]+/gu, "-");
}

/** Whose job it is, so that no other shop's job has the same name. @source RFC 2606, 2: ".invalid" is nobody's */
function domainOf({ name, email }: Party): string {
  const domain = /@([\w.-]+)$/.exec(email ?? "")?.[1];
  return domain ?? `${name.toLowerCase().replaceAll(/[^a-z0-9]+/g, "-")}.invalid`;
}

function lacking(code: string, found: string, expected: string, hint: string): Issue {
  return { code, severity: "error", at: [], found, expected, hint };
}
