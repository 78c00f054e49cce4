import type { JobView } from "../engine/protocol.ts";

/** Is the job being talked over at the telephone? Not once something was mended: then one stands at the machine. */
export function isOnTelephone(where: "telephone" | "machine", view: JobView): boolean {
  return where === "telephone" && view.outlook !== undefined && view.verification === undefined;
}
