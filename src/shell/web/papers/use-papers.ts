import { useCallback, useEffect, useMemo, useState } from "react";
import { sentence } from "../../../core/issue/index.ts";
import {
  type Account,
  accountOf,
  type Job,
  type JobRecord,
  readJob,
  recordOf,
  writtenJob,
} from "../../../core/ledger/index.ts";
import type { PaperOffer } from "../../../core/paper/index.ts";
import { askEngine, Replaced } from "../engine/client.ts";
import type { JobShop } from "../engine/papers-protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { today } from "../shell/today.ts";
import { useLive } from "../shell/use-live.ts";

/** A job as its papers see it. What was handed over, agreed and paid is there at once; what can be made takes a moment. */
export interface OpenedPapers {
  readonly record: JobRecord;
  /** The record as a job file. */
  readonly text: string;
  /** Event id by its place in the job file. */
  readonly ids: readonly string[];
  readonly job: Job;
  readonly account: Account;
  readonly demo: boolean;
  /** Id of the job's last event. */
  readonly last: string;
  /** Whose job it is; a moment later than the rest. */
  readonly shop: JobShop | undefined;
  /** What it can have now; behind the job while `thinking`. */
  readonly offers: readonly PaperOffer[];
  readonly thinking: boolean;
  readonly issues: readonly string[];
}

/** Follows the papers of one job; nothing until its events are read, and what is wrong with them where something is. */
export function usePapers(id: string): { readonly papers?: OpenedPapers; readonly broken?: readonly string[] } {
  const { ledger, settings } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const opened = useMemo(() => {
    const record = events === undefined ? undefined : recordOf(events);
    if (record === undefined) return undefined;
    const { text, ids } = writtenJob(record);
    return { record, text, ids, read: readJob(text) };
  }, [events]);
  const [answer, setAnswer] = useState<{
    readonly text: string;
    readonly offers: readonly PaperOffer[];
    readonly issues: readonly string[];
  }>();
  const [shop, setShop] = useState<JobShop>();
  const text = opened?.text;
  const demo = opened?.record.head.demo === true || opened?.record.head.practice !== undefined;
  const { own } = settings;
  useEffect(() => {
    if (text === undefined) return;
    let current = true;
    // Whatever the shop says of itself is laid over by the engine; another word of it, and it is asked again.
    void own;
    askEngine({ do: "job shop", text, demo }, `shop ${id}`).then(
      (said) => {
        if (current && said.ok) setShop(said.shop);
      },
      () => undefined,
    );
    askEngine({ do: "papers", text, date: today(), demo }, `papers ${id}`).then(
      (said) => {
        if (current)
          setAnswer(said.ok ? { text, offers: said.offers, issues: [] } : { text, offers: [], issues: said.issues });
      },
      (error: Error) => {
        if (current && !(error instanceof Replaced)) setAnswer({ text, offers: [], issues: [error.message] });
      },
    );
    return () => {
      current = false;
    };
  }, [id, text, demo, own]);
  if (opened === undefined) return {};
  const { record, ids, read } = opened;
  if (!read.ok) return { broken: read.issues.map(sentence) };
  const papers: OpenedPapers = {
    record,
    text: opened.text,
    ids,
    job: read.value,
    account: accountOf(read.value),
    demo,
    last: record.events.at(-1)?.id ?? "",
    shop,
    offers: answer?.offers ?? [],
    thinking: answer?.text !== opened.text,
    issues: answer?.issues ?? [],
  };
  return { papers };
}
