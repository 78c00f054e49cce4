import type { JobRecord } from "../../../core/ledger/index.ts";
import type { JobView } from "../engine/protocol.ts";

/** Events that only happen where the machine stands. */
const AT_THE_MACHINE: ReadonlySet<string> = new Set([
  "measured",
  "opened",
  "did",
  "unplugged",
  "isolated",
  "energised",
  "looked",
]);

/** Is the job being talked over at the telephone? Not once something was mended: then one stands at the machine. */
export function isOnTelephone(where: "telephone" | "machine", view: JobView): boolean {
  return where === "telephone" && view.outlook !== undefined && view.verification === undefined;
}

/** Has nothing been done at the machine yet, so that the job may still be one of the telephone? */
export function mayBeTalkedOver({ record }: { readonly record: JobRecord }): boolean {
  return !record.events.some(({ id, kind }) => AT_THE_MACHINE.has(kind) && !record.withdrawn.has(id));
}
