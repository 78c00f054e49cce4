import { useState } from "react";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import type { Write } from "../job/job-screen.tsx";

/** Writes what can be read back, and tells what cannot. */
export function useCheckedWrite(write: Write): {
  /** True when it is written. */
  readonly put: (...events: readonly WrittenEvent[]) => Promise<boolean>;
  readonly faults: readonly string[];
} {
  const [faults, setFaults] = useState<readonly string[]>([]);
  const put = async (...events: readonly WrittenEvent[]): Promise<boolean> => {
    const found = await askEngine({ do: "event faults", events });
    setFaults(found);
    return found.length === 0 && (await write(...events)) !== undefined;
  };
  return { put, faults };
}
