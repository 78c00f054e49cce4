import { askEngine } from "../engine/client.ts";
import type { ClosingView } from "../engine/closing-view.ts";
import { type AskedJob, useAsked } from "../job/use-asked.ts";

/** Follows one job between its repair and the door. */
export function useClosing(id: string): AskedJob<ClosingView> {
  return useAsked(id, askClosing);
}

function askClosing(text: string, id: string) {
  return askEngine({ do: "closing", text }, `closing ${id}`);
}
