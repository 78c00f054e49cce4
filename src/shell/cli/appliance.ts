import type { Job } from "../../core/ledger/index.ts";

/** What the job is about, as one says it: "tumble dryer"; of a branch, its parts. */
export function applianceOf({ sheet }: Job): string {
  return sheet.kind === "family" ? sheet.name.replaceAll("-", " ") : sheet.kinds;
}
