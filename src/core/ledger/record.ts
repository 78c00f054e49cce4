import { JOB_FORMAT } from "./read-job.ts";

/**
 * One thing that happened on a job, as it is kept and sent: never changed, never erased. A correction is an event of kind
 * `withdraws` that names the one it takes back.
 */
export interface LedgerEvent {
  /** UUIDv7: sorts by the time of writing. */
  readonly id: string;
  /** The job it belongs to (UUIDv7). */
  readonly job: string;
  /** ISO 8601, UTC, by the device's clock. */
  readonly time: string;
  readonly device: string;
  readonly person: string;
  /** `begins` and `amends` carry what a job file says of the job itself; all else is an event of a job file. */
  readonly kind: string;
  readonly body: unknown;
}

/** What a job says of itself, in the words of a job file, and whom it is for. */
export interface JobHead {
  /** The number people call it by. */
  readonly number: string;
  readonly sheet?: string;
  readonly branch?: readonly string[];
  readonly machine?: {
    readonly age?: string;
    readonly new?: number;
    readonly "last unit"?: string;
    readonly answers?: Readonly<Record<string, string>>;
    readonly differs?: readonly string[];
    readonly plate?: Readonly<Record<string, string>>;
  };
  readonly shop?: string;
  readonly authority?: number;
  /** A machine with a hidden fault that answers by itself: the same seed, the same machine. */
  readonly practice?: { readonly seed: string };
  /** A loose part on the bench instead of a machine: its kind, and its ratings as typed. */
  readonly part?: { readonly kind: string; readonly ratings: Readonly<Record<string, string>> };
  readonly complaint: string;
  readonly customer?: string;
  readonly place?: string;
  readonly returnOf?: string;
  /** Of the demonstration: an invented machine to try things on. */
  readonly demo?: true;
}

/** A job as its events tell it. */
export interface JobRecord {
  readonly id: string;
  readonly head: JobHead;
  /** Every event in the order of their ids, withdrawn ones with them. */
  readonly events: readonly LedgerEvent[];
  readonly withdrawn: ReadonlySet<string>;
  /** Time of the first and of the last event. */
  readonly begun: string;
  readonly touched: string;
  /** How it ended; undefined while it is in hand. */
  readonly end?: JobEnd;
  /** Codes of the general cautions that were read on this job: they need not stand open at every step. */
  readonly minded: ReadonlySet<string>;
}

/** Mended and verified; left waiting (for a part, for an answer), made safe; or stopped without a repair. */
export type JobEnd = "mended" | "waiting" | "stopped";

/** Kinds that tell of the job itself, or people alone, and nothing of the machine: no working out hangs on them. */
const OF_THE_JOB: ReadonlySet<string> = new Set([
  "begins",
  "amends",
  "closes",
  "reopens",
  "photo",
  "practised",
  "note",
  "minded",
]);

/**
 * Folds one job's events, in whatever order and however often they arrived, into what they say. Pure: a set of events
 * gives one record.
 *
 * @returns the record; undefined while the event that begins the job has not arrived, and after it was taken back
 */
export function recordOf(events: Iterable<LedgerEvent>): JobRecord | undefined {
  const sorted = [...new Map([...events].map((event) => [event.id, event])).values()].sort((a, b) =>
    a.id < b.id ? -1 : a.id > b.id ? 1 : 0,
  );
  const begins = sorted.find((event) => event.kind === "begins");
  if (begins === undefined) return undefined;
  const withdrawn = withdrawnIn(sorted);
  if (withdrawn.has(begins.id)) return undefined;
  let head = begins.body as JobHead;
  let end: JobEnd | undefined;
  const minded = new Set<string>();
  for (const event of sorted) {
    if (withdrawn.has(event.id)) continue;
    if (event.kind === "amends") head = { ...head, ...(event.body as Partial<JobHead>) };
    if (event.kind === "closes") end = endOf(event.body);
    if (event.kind === "reopens") end = undefined;
    if (event.kind === "minded" && Array.isArray(event.body)) for (const code of event.body) minded.add(String(code));
  }
  return {
    id: begins.job,
    head,
    events: sorted,
    withdrawn,
    begun: sorted[0].time,
    touched: sorted[sorted.length - 1].time,
    ...(end === undefined ? {} : { end }),
    minded,
  };
}

/** An end in words this version does not know is an end all the same. */
function endOf(body: unknown): JobEnd {
  return body === "mended" || body === "waiting" ? body : "stopped";
}

/**
 * Events that were taken back, of one job's in the order of their ids. A withdrawal may itself be withdrawn: the last word
 * counts. A paper that was handed over is never taken back.
 */
export function withdrawnIn(sorted: readonly LedgerEvent[]): ReadonlySet<string> {
  const by = new Map<string, LedgerEvent[]>();
  for (const event of sorted) {
    if (event.kind !== "withdraws" || typeof event.body !== "string") continue;
    by.set(event.body, [...(by.get(event.body) ?? []), event]);
  }
  const isOut = (id: string, depth: number): boolean =>
    depth < 50 && (by.get(id) ?? []).some((event) => !isOut(event.id, depth + 1));
  return new Set(sorted.flatMap(({ id, kind }) => (kind !== "issued" && isOut(id, 0) ? [id] : [])));
}

/** A record as a job file, and which event stands at which place in it. */
export interface WrittenJob {
  /** The job file as JSON, which is YAML: `readJob` reads it. */
  readonly text: string;
  /** Event id by its place in the file: `ids[0]` is event 1. */
  readonly ids: readonly string[];
}

/** A job of which nothing is known but its head, as a job file. */
export function writtenHead(head: JobHead): string {
  return writtenJob({ head, events: [], withdrawn: new Set() }).text;
}

/**
 * Writes a record as a job file: what counts now, in order; what was taken back is left out, and so is that it was left
 * waiting once it was opened again.
 */
export function writtenJob({ head, events, withdrawn }: Pick<JobRecord, "head" | "events" | "withdrawn">): WrittenJob {
  const reopened = events.findLast(({ id, kind }) => kind === "reopens" && !withdrawn.has(id))?.id ?? "";
  const counting = events.filter(
    ({ id, kind }) =>
      !withdrawn.has(id) && kind !== "withdraws" && !OF_THE_JOB.has(kind) && !(kind === "left" && id < reopened),
  );
  const { number, customer: name, place, practice: _practice, demo: _demo, authority, returnOf, ...rest } = head;
  const customer = {
    ...(authority === undefined ? {} : { authority }),
    ...(name === undefined || name === "" ? {} : { name }),
    ...(place === undefined || place === "" ? {} : { place }),
  };
  const document = {
    format: JOB_FORMAT,
    job: number,
    ...rest,
    ...(Object.keys(customer).length === 0 ? {} : { customer }),
    ...(returnOf === undefined ? {} : { "return-of": returnOf }),
    events: counting.map(({ kind, body, person }) => ({ [kind]: body, ...(person === "" ? {} : { by: person }) })),
  };
  return { text: JSON.stringify(document, null, 1), ids: counting.map(({ id }) => id) };
}
