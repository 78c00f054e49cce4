import type { Database } from "../../store/database.ts";

/** The number people call the next job by: year, and how many there are of the shop's own. */
export async function nextNumber(db: Database): Promise<string> {
  const year = new Date().getFullYear() % 100;
  const own = await db.jobs.filter(({ demo }) => demo !== true).count();
  return `${year}-${String(own + 1).padStart(4, "0")}`;
}
