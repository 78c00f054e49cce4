import type { Cause, Part } from "./machine.ts";

/**
 * Does a name in a link, a sign's table or a list of reasons mean this fault? `lint` and `heater/all open` mean themselves,
 * `heater` every mode of the heater, and `*` stands for any run of letters: `joint heater.*`, `heat-relay-1/*welded`.
 *
 * @param fault  cause id, or `part/mode`
 */
export function matchesFault(pattern: string, fault: string): boolean {
  if (!pattern.includes("*")) return fault === pattern || fault.startsWith(`${pattern}/`);
  const pieces = pattern.split("*");
  const first = pieces[0] ?? "";
  if (!fault.startsWith(first)) return false;
  let at = first.length;
  for (const piece of pieces.slice(1, -1)) {
    const found = fault.indexOf(piece, at);
    if (found < 0) return false;
    at = found + piece.length;
  }
  const last = pieces.at(-1) ?? "";
  if (fault.length - last.length >= at && fault.endsWith(last)) return true;
  // A pattern that ends within the part's name means all modes of the part.
  const slash = fault.lastIndexOf("/");
  return slash - last.length >= at && fault.slice(0, slash).endsWith(last);
}

/** Everything that can be at fault in a machine, by the names that links, tables and reasons use. */
export function faultNames(parts: readonly Part[], causes: readonly Cause[]): readonly string[] {
  const modes = parts.flatMap((part) => part.instance.modes.map((mode) => `${part.id}/${mode.name}`));
  return [...causes.map(({ id }) => id), ...modes];
}
