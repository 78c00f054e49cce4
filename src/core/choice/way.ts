import type { Course } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";

/** What a customer can choose between, by what is done to the machine. */
export type Way =
  | "advise"
  | "adjust"
  | "clean"
  | "re-terminate"
  | "used part"
  | "new part"
  | "assembly"
  | "refer"
  | "find and mend"
  | "stop";

/** What kind of thing a course does, from where it is done and the words of the sheet. */
export function wayOf({ on, remedy, price, assembly }: Course, machine: Machine): Way {
  if (assembly) return "assembly";
  if (/\b(refer|licensed|network operator|restore supply)\b/.test(remedy)) return "refer";
  const cause = machine.causes.find(({ id }) => id === on);
  if (cause?.group === "use" && price === 0) return "advise";
  const isJoint = machine.parts.some(({ id, joint }) => id === on && joint !== undefined);
  if (isJoint || /\b(tab|splice|re-solder|cut back|reseat|re-fit|tighten)\b/.test(remedy)) return "re-terminate";
  if (price > 0) return "new part";
  if (/\b(clean|dry|clear|descale|free|wipe)\b/.test(remedy)) return "clean";
  return "adjust";
}
