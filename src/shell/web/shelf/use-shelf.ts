import { useCallback, useEffect, useState } from "react";
import { accountOf, type JobRecord, readJob, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import type { Database } from "../../store/database.ts";
import type { Ledger } from "../../store/ledger.ts";
import { askEngine, Replaced } from "../engine/client.ts";
import type { OrdersView, ShelfJob } from "../engine/papers-protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** New parts as a shelf file tells them. */
export interface StockItem {
  readonly part: string;
  readonly says: string;
  readonly where: "van" | "bench" | "store";
  readonly count: number;
  readonly least: number;
}

/** The stock of new parts of this device, as it was counted last. */
interface Stock {
  readonly counted: string;
  readonly items: readonly StockItem[];
}

const KEY = "shelf";
const NONE: Stock = { counted: "", items: [] };

/** What the page stands on, read in one go: the stock, the jobs that take from it or wait for a part, and the tested parts. */
interface Ground {
  readonly stock: Stock;
  readonly jobs: readonly (ShelfJob & { readonly id: string; readonly number: string })[];
  readonly loose: readonly JobRecord[];
}

/** Follows the stock and what the jobs do to it. */
export function useShelf(): {
  readonly ground: Ground | undefined;
  readonly view: OrdersView | undefined;
  readonly thinking: boolean;
  readonly issues: readonly string[];
  /** Sets the new parts; what the jobs used up to now is in their counts. */
  readonly count: (items: readonly StockItem[]) => Promise<void>;
} {
  const { db, ledger } = useApp();
  const ground = useLive(useCallback(() => readGround(db, ledger), [db, ledger]));
  const [answer, setAnswer] = useState<{ of: Ground; view?: OrdersView; issues: readonly string[] }>();
  useEffect(() => {
    if (ground === undefined) return;
    let current = true;
    const shelf = JSON.stringify({ format: "faultwright-shelf/1", shelf: ground.stock.items });
    const jobs = ground.jobs.map(({ text, counted }) => ({ text, counted }));
    askEngine({ do: "orders", shelf, jobs, loose: ground.loose.map(({ events }) => events) }, "orders").then(
      (said) => {
        if (current)
          setAnswer(said.ok ? { of: ground, view: said.view, issues: [] } : { of: ground, issues: said.issues });
      },
      (error: Error) => {
        if (current && !(error instanceof Replaced)) setAnswer({ of: ground, issues: [error.message] });
      },
    );
    return () => {
      current = false;
    };
  }, [ground]);
  return {
    ground,
    view: answer?.view,
    thinking: ground === undefined || answer?.of !== ground,
    issues: answer?.issues ?? [],
    count: async (items) => {
      await db.settings.put({ key: KEY, value: { counted: new Date().toISOString(), items } satisfies Stock });
    },
  };
}

async function readGround(db: Database, ledger: Ledger): Promise<Ground> {
  const stock = ((await db.settings.get(KEY))?.value as Stock | undefined) ?? NONE;
  const lines = await db.jobs.orderBy("touched").toArray();
  const records = await Promise.all(
    lines
      .filter(({ loose, end }) => (loose === true ? end === "mended" : true))
      .map(async ({ id }) => recordOf(await ledger.eventsOf(id))),
  );
  const known = records.flatMap((record) => record ?? []);
  return {
    stock,
    jobs: known.flatMap((record) => jobOf(record, stock)),
    loose: known.filter(({ head }) => head.part !== undefined),
  };
}

/** A job as the shelf sees it; none where it takes nothing and waits for nothing. */
function jobOf(record: JobRecord, { counted }: Stock): Ground["jobs"] {
  const { head, end, events, withdrawn } = record;
  if (head.part !== undefined || head.practice !== undefined) return [];
  const repairs = events.filter(({ id, kind }) => kind === "did" && !withdrawn.has(id));
  const before = repairs.filter(({ time }) => time <= counted).length;
  const { text } = writtenJob(record);
  const waits = end === undefined || end === "waiting" ? waitsFor(text) : false;
  if (!waits && (counted === "" || before === repairs.length)) return [];
  return [{ id: record.id, number: head.number, text, counted: counted === "" ? repairs.length : before }];
}

/** Was a choice accepted on this job? */
function waitsFor(text: string): boolean {
  const job = readJob(text);
  return job.ok && accountOf(job.value).accepted !== undefined;
}
