import { awaitedOf, type JobHead, type LedgerEvent, recordOf, type WrittenEvent } from "../../core/ledger/index.ts";
import type { Database, JobLine, Photo } from "./database.ts";
import { nextId } from "./ids.ts";

/** Who writes: kept in the settings of the device. */
export interface Hand {
  readonly device: string;
  readonly person: string;
}

/**
 * The shop's ledger on this device. An event is on disk before anything says so; nothing is ever changed or erased.
 * Every write throws when the device refuses it (full storage), and then nothing of it was written.
 */
export class Ledger {
  readonly #db: Database;
  readonly #hand: Hand;

  constructor(db: Database, hand: Hand) {
    this.#db = db;
    this.#hand = hand;
  }

  /** Begins a job; gives its id. */
  async begin(head: JobHead, also: readonly WrittenEvent[] = []): Promise<string> {
    const job = nextId();
    await this.write(job, { kind: "begins", body: head }, ...also);
    return job;
  }

  /** Adds events to a job, all or none; gives their ids. */
  async write(job: string, ...written: readonly WrittenEvent[]): Promise<readonly string[]> {
    const events = this.draft(job, ...written);
    await this.add(events);
    return events.map(({ id }) => id);
  }

  /** Events as they would be added to a job now; nothing is written. */
  draft(job: string, ...written: readonly WrittenEvent[]): readonly LedgerEvent[] {
    return written.map((one) => this.#event(job, one));
  }

  #event(job: string, { kind, body }: WrittenEvent): LedgerEvent {
    return { id: nextId(), job, time: new Date().toISOString(), ...this.#hand, kind, body };
  }

  /** Takes an event back by another one that names it. */
  async withdraw(job: string, event: string): Promise<void> {
    await this.write(job, { kind: "withdraws", body: event });
  }

  /** Keeps a photo and the event that attaches it to a job, both or neither; `at` says at which step it was taken. */
  async attach(job: string, photo: Photo, at?: string): Promise<void> {
    const { photos, events, jobs } = this.#db;
    await this.#db.transaction("rw", photos, events, jobs, async () => {
      await photos.put(photo);
      await this.write(job, { kind: "photo", body: { hash: photo.hash, ...(at === undefined ? {} : { at }) } });
    });
  }

  /** Takes whole jobs back, all in one: the events that began them are withdrawn, and they are gone from the list. */
  async putAway(jobs: readonly string[]): Promise<void> {
    const events = await this.#db.events.where("job").anyOf(jobs).toArray();
    const begins = events.filter(({ kind }) => kind === "begins");
    await this.add(begins.map(({ id, job }) => this.#event(job, { kind: "withdraws", body: id })));
  }

  /** Adds events as they came from elsewhere (a file, another device): those already here are left as they are. */
  async add(events: readonly LedgerEvent[]): Promise<void> {
    const { events: table, jobs } = this.#db;
    await this.#db.transaction("rw", table, jobs, async () => {
      const known = await table.bulkGet(events.map(({ id }) => id));
      await table.bulkAdd(events.filter((_, index) => known[index] === undefined));
      for (const job of new Set(events.map((event) => event.job))) {
        const line = lineOf(await table.where("job").equals(job).toArray());
        if (line === undefined) await jobs.delete(job);
        else await jobs.put(line);
      }
    });
  }

  /** Every event of one job, as written. */
  async eventsOf(job: string): Promise<readonly LedgerEvent[]> {
    return await this.#db.events.where("job").equals(job).toArray();
  }
}

function lineOf(events: readonly LedgerEvent[]): JobLine | undefined {
  const record = recordOf(events);
  if (record === undefined) return undefined;
  const { head } = record;
  return {
    id: record.id,
    number: head.number,
    customer: head.customer ?? "",
    complaint: head.complaint,
    machine: head.part?.kind ?? head.sheet ?? (head.branch ?? []).join(", "),
    ...(head.part === undefined ? {} : { loose: true as const }),
    ...(head.demo === true ? { demo: true as const } : {}),
    ...(record.end === undefined ? {} : { end: record.end }),
    awaited: awaitedOf(record),
    begun: record.begun,
    touched: record.touched,
  };
}
