import { useCallback, useMemo } from "react";
import { drawnIn, type Paper } from "../../../core/paper/index.ts";
import type { Drawing } from "../../paper/drawing.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** The signatures of a paper that this device holds, as a drawing wants them; undefined until they are read. */
export function useSignatures(paper: Paper): Drawing["signatures"] {
  const { db } = useApp();
  const hashes = useMemo(() => drawnIn(paper), [paper]);
  return useLive(
    useCallback(async () => {
      const photos = await db.photos.bulkGet([...hashes]);
      const drawn = photos.filter((photo) => photo !== undefined);
      return new Map(await Promise.all(drawn.map(async ({ hash, blob }) => [hash, await blob.text()] as const)));
    }, [db, hashes]),
  );
}
