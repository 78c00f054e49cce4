import type { EventBody, JobEvent } from "../ledger/index.ts";
import type { Course } from "../remedy/index.ts";

/** What one technician did on one machine: ledger events, and what only the machine knows of its remedies. */
export interface History {
  readonly events: readonly JobEvent[];
  /** By the event in which it was written down. */
  readonly remedies: ReadonlyMap<string, Remedy>;
  readonly ended: "mended" | "stopped";
  /** It was closed as mended, and the customer calls again within the guarantee. */
  readonly cameBack: boolean;
}

export interface Remedy {
  readonly course: Course;
  /** It was meant for something that was wrong. */
  readonly right: boolean;
}

/** A job's events as they come: each gets its number. */
export class JobPaper {
  readonly events: JobEvent[] = [];

  write(body: EventBody): JobEvent {
    const n = this.events.length + 1;
    const event = { id: `e${n}`, line: n, ...body };
    this.events.push(event);
    return event;
  }
}
