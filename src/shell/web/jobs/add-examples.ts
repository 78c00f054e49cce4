import type { Database } from "../../store/database.ts";
import type { Ledger } from "../../store/ledger.ts";
import { askEngine } from "../engine/client.ts";
import { exampleJob } from "./example-job.ts";

/** Set once the demonstration's jobs were put into the ledger of this device: they are put there no second time. */
const DONE = "demonstration";

/** On the first run of a device, puts the demonstration's jobs into its ledger, each as its file tells it. */
export async function addExamplesOnce(db: Database, ledger: Ledger): Promise<void> {
  if ((await db.settings.get(DONE)) === undefined) await addExamples(db, ledger, true);
}

/** Puts the demonstration's jobs into the ledger, where they are not in its list already. */
export async function addExamples(db: Database, ledger: Ledger, once = false): Promise<void> {
  const jobs = (await askEngine({ do: "examples" })).map(({ text }) => exampleJob(text));
  await db.transaction("rw", db.events, db.jobs, db.settings, async () => {
    // Another tab may have been faster, and a ledger that is in use is no first run.
    const used = (await db.settings.get(DONE)) !== undefined || (await db.events.count()) > 0;
    const there = await db.jobs.filter(({ demo }) => demo === true).count();
    if (there > 0 || (once && used)) return;
    await db.settings.put({ key: DONE, value: new Date().toISOString() });
    for (const { head, events } of jobs) await ledger.begin(head, events);
  });
}
