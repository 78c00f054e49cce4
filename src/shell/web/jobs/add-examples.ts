import type { JobHead, WrittenEvent } from "../../../core/ledger/index.ts";
import type { Database } from "../../store/database.ts";
import type { Ledger } from "../../store/ledger.ts";
import { askEngine } from "../engine/client.ts";

/** Set once the demonstration's jobs were put into the ledger of this device: they are put there no second time. */
const DONE = "demonstration";

/** On the first run of a device, puts the demonstration's jobs into its ledger, each as its file tells it. */
export async function addExamplesOnce(db: Database, ledger: Ledger): Promise<void> {
  if ((await db.settings.get(DONE)) === undefined) await addExamples(db, ledger, true);
}

/** Puts the demonstration's jobs into the ledger, where they are not in its list already. */
export async function addExamples(db: Database, ledger: Ledger, once = false): Promise<void> {
  const jobs = (await askEngine({ do: "examples" })).map(({ text }) => jobIn(JSON.parse(text) as Written));
  await db.transaction("rw", db.events, db.jobs, db.settings, async () => {
    // Another tab may have been faster, and a ledger that is in use is no first run.
    const used = (await db.settings.get(DONE)) !== undefined || (await db.events.count()) > 0;
    const there = await db.jobs.filter(({ demo }) => demo === true).count();
    if (there > 0 || (once && used)) return;
    await db.settings.put({ key: DONE, value: new Date().toISOString() });
    for (const { head, events } of jobs) await ledger.begin(head, events);
  });
}

function jobIn({ format: _format, job, events = [], customer, "return-of": returnOf, ...rest }: Written): {
  readonly head: JobHead;
  readonly events: readonly WrittenEvent[];
} {
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

/** A job file as JSON: every value is text. */
type Written = Omit<JobHead, "number" | "customer" | "authority"> & {
  readonly format: string;
  readonly job: string;
  readonly customer?: { readonly authority?: string };
  readonly "return-of"?: string;
  readonly events?: readonly Readonly<Record<string, unknown>>[];
};
