import type { ChoicesView } from "../engine/choices-view.ts";
import { askEngine } from "../engine/client.ts";
import { type AskedJob, useAsked } from "../job/use-asked.ts";
import { today } from "../shell/today.ts";

/** Follows what can be chosen on one job. */
export function useChoices(id: string): AskedJob<ChoicesView> {
  return useAsked(id, askChoices);
}

function askChoices(text: string, id: string) {
  return askEngine({ do: "choices", text, date: today() }, `choices ${id}`);
}
