import { useCallback, useEffect, useMemo, useState } from "react";
import { type JobRecord, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import { askEngine, Replaced } from "../engine/client.ts";
import type { JobView } from "../engine/protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** A job as the screens show it: its record, and what the engine makes of it. */
export interface OpenedJob {
  readonly record: JobRecord;
  /** Event id by its place in the job file, as `view.told` counts. */
  readonly ids: readonly string[];
  /** The last that was worked out; it may be one event behind while `thinking`. */
  readonly view: JobView | undefined;
  readonly thinking: boolean;
  readonly issues: readonly string[];
}

/** Follows one job: reads its events, has them worked out anew whenever one is added. Undefined until it is read. */
export function useJob(id: string, where: "telephone" | "machine"): OpenedJob | undefined {
  const { ledger } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const record = useMemo(() => (events === undefined ? undefined : recordOf(events)), [events]);
  const written = useMemo(() => (record === undefined ? undefined : writtenJob(record)), [record]);
  const [worked, setWorked] = useState<{ text: string; where: string; view?: JobView; issues: readonly string[] }>();

  const text = written?.text;
  useEffect(() => {
    if (text === undefined) return;
    let current = true;
    askEngine({ do: "work out", text, where }, id)
      .then((answer) => {
        if (!current) return;
        setWorked((before) =>
          answer.ok
            ? { text, where, view: answer.view, issues: [] }
            : { text, where, ...(before?.view === undefined ? {} : { view: before.view }), issues: answer.issues },
        );
      })
      .catch((error: Error) => {
        if (current && !(error instanceof Replaced)) setWorked({ text, where, issues: [error.message] });
      });
    return () => {
      current = false;
    };
  }, [id, text, where]);

  if (record === undefined || written === undefined) return undefined;
  return {
    record,
    ids: written.ids,
    view: worked?.view,
    thinking: worked?.text !== text || worked?.where !== where,
    issues: worked?.issues ?? [],
  };
}
