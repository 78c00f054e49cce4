import { type JobHead, type WrittenEvent, writtenJob } from "../../../core/ledger/index.ts";

/** A job of the demonstration as the ledger begins it. */
export function exampleJob(text: string): { readonly head: JobHead; readonly events: readonly WrittenEvent[] } {
  const { format: _format, job, events = [], customer, "return-of": returnOf, ...rest } = JSON.parse(text) as Written;
  const authority = customer?.authority;
  return {
    head: {
      number: job,
      ...rest,
      ...(authority === undefined ? {} : { authority: Number(authority) }),
      ...(returnOf === undefined ? {} : { returnOf }),
      demo: true,
    },
    events: events.flatMap((event) =>
      Object.entries(event)
        .filter(([kind]) => kind !== "at" && kind !== "by")
        .map(([kind, body]) => ({ kind, body })),
    ),
  };
}

/** The same as the job file that the engine is asked about when it is first opened, on a device that names nobody. */
export function exampleFile(text: string): string {
  const { head, events } = exampleJob(text);
  const as = { job: "", time: "", device: "", person: "" };
  const written = events.map((event, index) => ({ ...event, ...as, id: String(index) }));
  return writtenJob({ head, events: written, withdrawn: new Set() }).text;
}

/** A job file as JSON: every value is text. */
type Written = Omit<JobHead, "number" | "customer" | "authority"> & {
  readonly format: string;
  readonly job: string;
  readonly customer?: { readonly authority?: string };
  readonly "return-of"?: string;
  readonly events?: readonly Readonly<Record<string, unknown>>[];
};
