import { useCallback, useState } from "react";
import type { JobRecord } from "../../../core/ledger/index.ts";
import { useApp } from "../shell/app-state.tsx";
import type { Write } from "./job-screen.tsx";

/** Writing on one job: what the device refused last, and whether something written is not yet back in its record. */
export function useWriting(
  id: string,
  record: JobRecord | undefined,
): { readonly put: Write; readonly refused: string; readonly onItsWay: boolean } {
  const { ledger } = useApp();
  const [refused, setRefused] = useState("");
  const [awaited, setAwaited] = useState<"writing" | { readonly last: string }>();
  const put = useCallback<Write>(
    async (...events) => {
      setAwaited("writing");
      try {
        const ids = await ledger.write(id, ...events);
        setRefused("");
        const last = ids.at(-1);
        setAwaited(last === undefined ? undefined : { last });
        return ids;
      } catch (error) {
        setRefused(error instanceof Error ? error.message : String(error));
        setAwaited(undefined);
        return undefined;
      }
    },
    [ledger, id],
  );
  const isBack = typeof awaited === "object" && record?.events.some((event) => event.id === awaited.last) === true;
  return { put, refused, onItsWay: awaited !== undefined && !isBack };
}
