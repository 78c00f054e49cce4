import type { Checked } from "../issue/index.ts";
import { type Cursor, readWith } from "../part/index.ts";
import { parseAmount } from "../quantity/index.ts";
import type { Job, JobEvent, JobMachine, Located } from "./job.ts";
import { readDay } from "./read-day.ts";
import { clockMinutes, readEvent } from "./read-event.ts";

export const JOB_FORMAT = "faultwright-job/1";
export const JOB_KEYS = [
  "format",
  "job",
  "sheet",
  "branch",
  "machine",
  "shop",
  "customer",
  "date",
  "complaint",
  "return-of",
  "events",
] as const;
export const CUSTOMER_KEYS = ["authority", "name", "place"] as const;
export const MACHINE_KEYS = ["age", "new", "last unit", "answers", "differs", "plate"] as const;

/**
 * A job file: what machine, what complaint, and what happened, in order.
 *
 * Names of points, signs and parts are checked later, against the sheet (`foldJob`); here only the form. An event of an
 * unknown kind is kept as it stands and warned about.
 *
 * @param text  YAML (or JSON)
 * @param file  as the user named it, for issues
 * @returns     the job, or every issue of the file at once
 */
export function readJob(text: string, file?: string): Checked<Job> {
  return readWith(text, file, readRoot);
}

function readRoot(root: Cursor): Job | undefined {
  if (!root.isMap) return root.refuse("job.not-map", `a job: a map that begins with format: ${JOB_FORMAT}`);
  const format = root.need("format", `format: ${JOB_FORMAT}`)?.text();
  if (format !== undefined && format !== JOB_FORMAT) root.field("format")?.refuse("job.format", JOB_FORMAT);
  root.onlyKeys(JOB_KEYS);

  const id = root.need("job", "job: a number or name for this job")?.word();
  const sheet = readSheetName(root);
  const shop = root.field("shop")?.word("a cost file's name") ?? "demo-shop";
  const customer = readCustomer(root.field("customer"));
  const machine = readMachine(root.field("machine"));
  const events = readEvents(root.field("events"));
  const complaint = root.field("complaint")?.text() ?? "";
  const date = readDay(root.field("date"));
  const returnOf = root.field("return-of")?.word();
  if (id === undefined || sheet === undefined) return undefined;
  return {
    id,
    sheet,
    shop,
    customer,
    machine,
    complaint,
    events,
    ...(date === undefined ? {} : { date }),
    ...(returnOf === undefined ? {} : { returnOf }),
  };
}

function readCustomer(at: Cursor | undefined): Job["customer"] {
  at?.onlyKeys(CUSTOMER_KEYS);
  const authority = at?.field("authority")?.number(0, 1e6);
  const name = at?.field("name")?.word();
  const place = at?.field("place")?.word();
  return {
    ...(authority === undefined ? {} : { authority }),
    ...(name === undefined ? {} : { name }),
    ...(place === undefined ? {} : { place }),
  };
}

function readSheetName(root: Cursor): Job["sheet"] | undefined {
  const branch = root.field("branch");
  if (branch !== undefined) {
    const kinds = branch.items().flatMap((item) => item.word("a list of kinds: plug,cord,heater:2kW") ?? []);
    if (root.field("sheet") !== undefined) branch.refuse("job.two-sheets", "either sheet: or branch:, not both");
    return kinds.length === 0 ? undefined : { kind: "branch", kinds: kinds.join(",") };
  }
  const name = root.need("sheet", "sheet: the family sheet's name, or branch: a list of kinds")?.word();
  return name === undefined ? undefined : { kind: "family", name };
}

function readMachine(at: Cursor | undefined): JobMachine {
  at?.onlyKeys(MACHINE_KEYS);
  const age = at?.field("age");
  const ageYears = age === undefined ? undefined : readYears(age);
  const replacementPrice = at?.field("new")?.number(0, 1e6);
  const lastUnit = readDay(at?.field("last unit"));
  const differs = (at?.field("differs")?.items() ?? []).flatMap((item) => {
    const text = item.word("a difference: cut-out absent");
    return text === undefined ? [] : [{ text, line: item.line }];
  });
  return {
    answers: readNamed(at?.field("answers")),
    differs,
    plate: readNamed(at?.field("plate")),
    ...(ageYears === undefined ? {} : { ageYears }),
    ...(replacementPrice === undefined ? {} : { replacementPrice }),
    ...(lastUnit === undefined ? {} : { lastUnit }),
  };
}

function readYears(at: Cursor): number | undefined {
  const text = at.text("years: 7 years");
  if (text === undefined) return undefined;
  const match = /^(\d+(?:\.\d+)?)\s*(?:years?|y)?$/.exec(text);
  const years = match === null ? Number.NaN : Number(match[1]);
  return years >= 0 && years <= 100 ? years : at.refuse("job.age", "years from 0 to 100: 7 years");
}

function readNamed(at: Cursor | undefined): ReadonlyMap<string, Located> {
  const named = new Map<string, Located>();
  for (const [name, value] of at?.entries() ?? []) {
    const text = value.word();
    if (text !== undefined) named.set(name, { text, line: value.keyLine });
  }
  return named;
}

function readEvents(at: Cursor | undefined): readonly JobEvent[] {
  if (at === undefined || at.isEmpty) return [];
  if (!at.isList) {
    at.refuse("job.events", "a list of events, each beginning with a dash");
    return [];
  }
  const events: JobEvent[] = [];
  const withdrawals: [Cursor, string][] = [];
  let firstClock: number | undefined;
  at.items().forEach((item, index) => {
    const time = item.field("at");
    const clock = time === undefined ? undefined : clockMinutes(time);
    if (clock !== undefined) firstClock ??= clock;
    const minutes = clock === undefined ? readMinutes(time) : (clock - (firstClock ?? clock) + 1440) % 1440;
    const by = item.field("by")?.word();
    const body = readEvent(item);
    if (body === undefined) return;
    if (body.kind === "withdraws") withdrawals.push([item, body.event]);
    events.push({
      id: `e${index + 1}`,
      line: item.line,
      ...(minutes === undefined ? {} : { atMinutes: minutes }),
      ...(by === undefined ? {} : { by }),
      ...body,
    });
  });
  for (const [item, id] of withdrawals) refuseIssued(item, id, events);
  return events;
}

/** What was handed over was handed over: no withdrawal takes it out of the customer's hand. */
function refuseIssued(at: Cursor, id: string, events: readonly JobEvent[]): void {
  const event = events.find((one) => one.id === id);
  if (event?.kind !== "issued") return;
  const hint = event.paper === "invoice" ? "Write a credit note." : "Issue it anew: the later one counts.";
  at.refuse("job.issued", "no paper that was handed over", hint, `${event.paper} ${event.number}`);
}

function readMinutes(at: Cursor | undefined): number | undefined {
  const text = at?.text("minutes since the job began, or a time as 14:20");
  if (at === undefined || text === undefined) return undefined;
  const bare = text.replace(/\s*min(utes)?$/, "");
  const rated = at.issues.take(parseAmount(bare, { unit: "1", ...at.place }));
  if (rated === undefined) return undefined;
  return rated.nominal >= 0 ? rated.nominal : at.refuse("job.at", "minutes since the job began, or a time as 14:20");
}
