import { useCallback, useState } from "react";
import { type JobRecord, type LedgerEvent, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import { askMachine } from "../practice/ask-machine.ts";
import { useApp } from "../shell/app-state.tsx";
import type { Write } from "./job-screen.tsx";

/**
 * Writing on one job: what the device refused last, whether something written is not yet back in its record, and why a
 * practice machine did not do what was asked.
 */
export function useWriting(
  id: string,
  record: JobRecord | undefined,
): { readonly put: Write; readonly refused: string; readonly onItsWay: boolean; readonly told: readonly string[] } {
  const { ledger } = useApp();
  const [refused, setRefused] = useState("");
  const [told, setTold] = useState<readonly string[]>([]);
  const [awaited, setAwaited] = useState<"writing" | { readonly last: string }>();
  const put = useCallback<Write>(
    async (...events) => {
      setAwaited("writing");
      try {
        const said = record === undefined ? undefined : await askMachine(record, events);
        setTold(said?.told ?? []);
        const drafted = ledger.draft(id, ...(said?.events ?? events));
        if (record !== undefined) thinkAhead(id, [...record.events, ...drafted]);
        await ledger.add(drafted);
        setRefused("");
        const ids = drafted.map((event) => event.id);
        const last = ids.at(-1);
        setAwaited(last === undefined ? undefined : { last });
        return ids;
      } catch (error) {
        setRefused(error instanceof Error ? error.message : String(error));
        setAwaited(undefined);
        return undefined;
      }
    },
    [ledger, id, record],
  );
  const isBack = typeof awaited === "object" && record?.events.some((event) => event.id === awaited.last) === true;
  return { put, refused, onItsWay: awaited !== undefined && !isBack, told };
}

/** Has the engine begin with the odds while the device writes: they are asked for again, and told, once it holds the event. */
function thinkAhead(id: string, events: readonly LedgerEvent[]): void {
  const record = recordOf(events);
  if (record === undefined) return;
  askEngine({ do: "odds", text: writtenJob(record).text }, `${id} odds`).catch(() => undefined);
}
