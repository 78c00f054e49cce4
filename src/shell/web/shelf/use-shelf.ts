import { useCallback, useEffect, useState } from "react";
import {
  accountOf,
  type JobRecord,
  type LedgerEvent,
  readJob,
  recordOf,
  writtenJob,
} from "../../../core/ledger/index.ts";
import { type StockRecord, stockRecordOf } from "../../../core/shelf/index.ts";
import type { Database } from "../../store/database.ts";
import type { Ledger } from "../../store/ledger.ts";
import { askEngine, Replaced } from "../engine/client.ts";
import type { OrdersView, ShelfJob } from "../engine/papers-protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** The ledger of the stock: events of no job. */
export const STOCK = "shelf";

/** What the page stands on, read in one go: the stock, the jobs that take from it or wait for a part, and the tested parts. */
interface Ground {
  readonly events: readonly LedgerEvent[];
  readonly stock: StockRecord;
  readonly jobs: readonly (ShelfJob & { readonly id: string; readonly number: string })[];
  readonly standing: readonly string[];
  readonly loose: readonly JobRecord[];
}

/** Follows the stock and what the jobs do to it. */
export function useShelf(): {
  readonly ground: Ground | undefined;
  readonly view: OrdersView | undefined;
  readonly thinking: boolean;
  readonly issues: readonly string[];
} {
  const { db, ledger } = useApp();
  const ground = useLive(useCallback(() => readGround(db, ledger), [db, ledger]));
  const [answer, setAnswer] = useState<{ of: Ground; view?: OrdersView; issues: readonly string[] }>();
  useEffect(() => {
    if (ground === undefined) return;
    let current = true;
    const { events, standing, loose } = ground;
    const jobs = ground.jobs.map(({ text, repairs }) => ({ text, repairs }));
    const ask = async () => {
      const parts = loose.map((record) => record.events);
      const said = await askEngine({ do: "orders", stock: events, jobs, standing, loose: parts }, "orders");
      if (!current) return;
      if (!said.ok) return setAnswer({ of: ground, issues: said.issues });
      // What a repair took is written down before it is shown; then all of this is read anew.
      if (said.uses.length > 0) await ledger.write(STOCK, ...said.uses.map((body) => ({ kind: "used", body })));
      else setAnswer({ of: ground, view: said.view, issues: [] });
    };
    ask().catch((error: Error) => {
      if (current && !(error instanceof Replaced)) setAnswer({ of: ground, issues: [error.message] });
    });
    return () => {
      current = false;
    };
  }, [ground, ledger]);
  return {
    ground,
    view: answer?.view,
    thinking: ground === undefined || answer?.of !== ground,
    issues: answer?.issues ?? [],
  };
}

async function readGround(db: Database, ledger: Ledger): Promise<Ground> {
  const events = await ledger.eventsOf(STOCK);
  const stock = stockRecordOf(events);
  const lines = await db.jobs.orderBy("touched").toArray();
  const records = await Promise.all(
    lines
      .filter(({ loose, end }) => (loose === true ? end === "mended" : true))
      .map(async ({ id }) => recordOf(await ledger.eventsOf(id))),
  );
  const known = records.flatMap((record) => record ?? []);
  const machines = known.filter(({ head }) => head.part === undefined && head.practice === undefined);
  return {
    events,
    stock,
    jobs: machines.flatMap((record) => jobOf(record, stock)),
    standing: machines.flatMap(repairsOf),
    loose: known.filter(({ head }) => head.part !== undefined),
  };
}

/** Ids of the repairs of a job that were not taken back. */
function repairsOf({ events, withdrawn }: JobRecord): readonly string[] {
  return events.flatMap(({ id, kind }) => (kind === "did" && !withdrawn.has(id) ? [id] : []));
}

/** A job as the shelf sees it; none where it waits for nothing and all that it took is known. */
function jobOf(record: JobRecord, { stocked, used }: StockRecord): Ground["jobs"] {
  const first = stocked.find(({ isTakenBack }) => !isTakenBack)?.event;
  const known = new Set(used.map(({ repair }) => repair));
  const repairs = repairsOf(record);
  // Before anything was put on the shelf, nothing was taken off it.
  const isTaking = first !== undefined && repairs.some((id) => id > first && !known.has(id));
  const { text } = writtenJob(record);
  const waits = record.end === undefined || record.end === "waiting" ? waitsFor(text) : false;
  return waits || isTaking
    ? [{ id: record.id, number: record.head.number, text, repairs: first === undefined ? [] : repairs }]
    : [];
}

/** Was a choice accepted on this job? */
function waitsFor(text: string): boolean {
  const job = readJob(text);
  return job.ok && accountOf(job.value).accepted !== undefined;
}
