import Dexie, { type Table } from "dexie";
import type { Awaited, JobEnd, LedgerEvent } from "../../core/ledger/index.ts";

/** One line of the list of jobs: folded from the events in the very transaction that wrote them. */
export interface JobLine {
  readonly id: string;
  readonly number: string;
  readonly customer: string;
  readonly complaint: string;
  /** Sheet or branch, as the job names it. */
  readonly machine: string;
  readonly end?: JobEnd;
  /** Who or what it waits for; absent in a line that an older version wrote. */
  readonly awaited?: Awaited;
  /** A loose part on the bench. */
  readonly loose?: true;
  /** Of the demonstration. */
  readonly demo?: true;
  readonly begun: string;
  readonly touched: string;
}

/** A picture, kept by the hash of its bytes. */
export interface Photo {
  readonly hash: string;
  readonly blob: Blob;
}

/** Everything the shop keeps on this device. Events are only ever added. */
export class Database extends Dexie {
  readonly events!: Table<LedgerEvent, string>;
  readonly jobs!: Table<JobLine, string>;
  readonly photos!: Table<Photo, string>;
  readonly settings!: Table<{ readonly key: string; readonly value: unknown }, string>;

  constructor(name = "faultwright") {
    super(name);
    // Version 1 had no index of the kinds of event; a browser that holds one makes it when it is next opened.
    this.version(2).stores({ events: "id, job, kind", jobs: "id, touched", photos: "hash", settings: "key" });
  }
}
