import { useCallback, useEffect, useMemo, useState } from "react";
import { type JobRecord, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import type { ChoicesView } from "../engine/choices-view.ts";
import { askEngine, Replaced } from "../engine/client.ts";
import { useApp } from "../shell/app-state.tsx";
import { today } from "../shell/today.ts";
import { useLive } from "../shell/use-live.ts";

/** A job's choices: the last that were weighed, and whether something written since is still to be weighed. */
export interface OpenedChoices {
  readonly record: JobRecord | undefined;
  /** Event id by its place in the job file. */
  readonly ids: readonly string[];
  readonly view: ChoicesView | undefined;
  readonly thinking: boolean;
  readonly issues: readonly string[];
}

/** Follows what can be chosen on one job. */
export function useChoices(id: string): OpenedChoices {
  const { ledger } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const record = useMemo(() => (events === undefined ? undefined : recordOf(events)), [events]);
  const written = useMemo(() => (record === undefined ? undefined : writtenJob(record)), [record]);
  const [weighed, setWeighed] = useState<{
    readonly text: string;
    readonly view?: ChoicesView;
    readonly issues: readonly string[];
  }>();
  const text = written?.text;
  useEffect(() => {
    if (text === undefined) return;
    let current = true;
    askEngine({ do: "choices", text, date: today() }, `choices ${id}`).then(
      (answer) => {
        if (!current) return;
        setWeighed(answer.ok ? { text, view: answer.view, issues: [] } : { text, issues: answer.issues });
      },
      (error: Error) => {
        if (current && !(error instanceof Replaced)) setWeighed({ text, issues: [error.message] });
      },
    );
    return () => {
      current = false;
    };
  }, [id, text]);
  return {
    record,
    ids: written?.ids ?? [],
    view: weighed?.view,
    thinking: weighed?.text !== text,
    issues: weighed?.issues ?? [],
  };
}
