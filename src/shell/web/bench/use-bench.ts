import { useCallback, useEffect, useState } from "react";
import { type JobRecord, recordOf } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import type { BenchView } from "../engine/protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** Follows one loose part: its record, and its test as far as it went. */
export function useBench(id: string): {
  readonly record: JobRecord | undefined;
  readonly view: BenchView | undefined;
  readonly issues: readonly string[];
} {
  const { ledger } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const [view, setView] = useState<BenchView>();
  const [issues, setIssues] = useState<readonly string[]>([]);
  useEffect(() => {
    if (events === undefined) return;
    let current = true;
    askEngine({ do: "bench", events }, `bench ${id}`).then(
      (answer) => {
        if (!current) return;
        setIssues(answer.ok ? [] : answer.issues);
        if (answer.ok) setView(answer.view);
      },
      () => undefined,
    );
    return () => {
      current = false;
    };
  }, [events, id]);
  return { record: events === undefined ? undefined : recordOf(events), view, issues };
}
