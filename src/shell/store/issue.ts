import { nextNumber, type Series } from "../../core/bill/index.ts";
import type { IssuedPaper } from "../../core/ledger/index.ts";
import type { Database } from "./database.ts";
import type { Ledger } from "./ledger.ts";

/**
 * What came of handing a paper over. Nothing was written unless it is `issued`: `renumber`: another tab or tap took its
 * number meanwhile; `changed`: the job is no longer the one that the paper was made from.
 */
export type Issued = { readonly is: "issued"; readonly event: string } | { readonly is: "renumber" | "changed" };

/** The next number of a series, by all papers of that kind that this device knows of. */
export async function nextNumberOf(db: Database, paper: string, series: Series): Promise<string> {
  const issued = await db.events.where("kind").equals("issued").toArray();
  const papers = issued.map(({ body }) => body as IssuedPaper);
  return nextNumber(
    series,
    papers.filter((one) => one.paper === paper).map(({ number }) => number),
  );
}

/**
 * Writes that a paper was handed over, if nobody was faster: the looks at the job and at the series, and the writing,
 * are one transaction, so that no two tabs give one number, and no double tap hands over twice.
 *
 * @param made  id of the last event of the job that the paper was made from
 * @param series  of a numbered paper; one of another kind bears the name of its job
 */
export async function issue(
  db: Database,
  ledger: Ledger,
  asked: { readonly job: string; readonly made: string; readonly paper: IssuedPaper; readonly series?: Series },
): Promise<Issued> {
  const { job, made, paper, series } = asked;
  return await db.transaction("rw", db.events, db.jobs, async () => {
    const ids = await db.events.where("job").equals(job).primaryKeys();
    if (ids.sort().at(-1) !== made) return { is: "changed" };
    if (series !== undefined && (await nextNumberOf(db, paper.paper, series)) !== paper.number)
      return { is: "renumber" };
    const [event = ""] = await ledger.write(job, { kind: "issued", body: paper });
    return { is: "issued", event };
  });
}
