import type { WrittenEvent } from "../../../core/ledger/index.ts";
import type { ChoicesView } from "../engine/choices-view.ts";

/** What the customer was shown, to be written down with the answer: the odds may change, what was told does not. */
export function offeredBy({ rows }: ChoicesView): WrittenEvent {
  return { kind: "offered", body: rows.map(({ id, says, price }) => ({ choice: id, says, price })) };
}
