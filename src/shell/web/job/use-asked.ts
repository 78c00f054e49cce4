import { useCallback, useEffect, useMemo, useState } from "react";
import { type JobRecord, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import { Replaced } from "../engine/client.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** What the engine answers of a job: a view of it, or why it cannot be read. */
export type Viewed<V> =
  | { readonly ok: true; readonly view: V }
  | { readonly ok: false; readonly issues: readonly string[] };

/** One view of a job: the last that was answered, and whether something written since is not in it yet. */
export interface AskedJob<V> {
  readonly record: JobRecord | undefined;
  /** The record as a job file. */
  readonly text: string | undefined;
  /** Event id by its place in the job file. */
  readonly ids: readonly string[];
  readonly view: V | undefined;
  readonly thinking: boolean;
  /** Counts the answers: a view with another number is another view. */
  readonly serial: number;
  readonly issues: readonly string[];
}

/**
 * Follows one job and asks the engine for one view of it, anew whenever an event is added.
 *
 * @param ask  asks of a job file's text; a function that stays the same between renders
 */
export function useAsked<V>(id: string, ask: (text: string, id: string) => Promise<Viewed<V>>): AskedJob<V> {
  const { ledger } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const record = useMemo(() => (events === undefined ? undefined : recordOf(events)), [events]);
  const written = useMemo(() => (record === undefined ? undefined : writtenJob(record)), [record]);
  const [answered, setAnswered] = useState<{
    readonly text: string;
    readonly view?: V;
    readonly serial: number;
    readonly issues: readonly string[];
  }>();
  const text = written?.text;
  useEffect(() => {
    if (text === undefined) return;
    let current = true;
    ask(text, id).then(
      (answer) => {
        if (!current) return;
        setAnswered((before) => {
          const serial = (before?.serial ?? 0) + 1;
          return answer.ok ? { text, serial, view: answer.view, issues: [] } : { text, serial, issues: answer.issues };
        });
      },
      (error: Error) => {
        if (current && !(error instanceof Replaced)) setAnswered({ text, serial: 0, issues: [error.message] });
      },
    );
    return () => {
      current = false;
    };
  }, [id, text, ask]);
  return {
    record,
    text,
    ids: written?.ids ?? [],
    view: answered?.view,
    thinking: answered?.text !== text,
    serial: answered?.serial ?? 0,
    issues: answered?.issues ?? [],
  };
}
