import type { IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean } from "../part/index.ts";
import type { Draft } from "./draft.ts";
import type { Cause, Link, Part } from "./machine.ts";
import type { Merged } from "./merge.ts";

/** Everything that can be at fault, by the names that links, tables and reasons use: cause id, or `part/mode`. */
export class FaultNames {
  readonly #all: readonly string[];
  readonly #owners: ReadonlySet<string>;

  constructor(parts: readonly Part[], causes: readonly Cause[]) {
    const modes = parts.flatMap((part) => part.instance.modes.map((mode) => `${part.id}/${mode.name}`));
    this.#all = [...causes.map(({ id }) => id), ...modes];
    this.#owners = new Set([...causes.map(({ id }) => id), ...parts.map(({ id }) => id)]);
  }

  /** Names that match; see `matchesFault`. */
  matching(pattern: string): readonly string[] {
    return this.#all.filter((name) => matchesFault(pattern, name));
  }

  get known(): readonly string[] {
    return [...this.#all, ...this.#owners];
  }
}

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

/** Protector → why it opened. Chances are normalised. */
export function readWhyOpen(
  merged: Merged,
  draft: Draft,
  issues: IssueList,
): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const reasons = new Map<string, ReadonlyMap<string, number>>();
  for (const [part, cursor] of merged.section("why-open", issues)) {
    if (!draft.parts.has(part)) continue;
    const chances = new Map<string, number>();
    for (const [reason, value] of cursor.entries()) {
      const p = value.chance();
      if (p !== undefined) chances.set(reason, p);
    }
    const total = [...chances.values()].reduce((sum, p) => sum + p, 0);
    if (!(total > 0)) cursor.refuse("sheet.why-open", "reasons with chances above 0");
    else reasons.set(part, new Map([...chances].map(([reason, p]) => [reason, p / total])));
  }
  return reasons;
}

/** Word on the display → what it says about a circuit. */
export function readCodes(merged: Merged, issues: IssueList): ReadonlyMap<string, string> {
  const codes = new Map<string, string>();
  for (const [code, cursor] of merged.section("codes", issues)) {
    const says = cursor.word("a sign about a circuit, in words");
    if (says !== undefined) codes.set(code, says);
  }
  return codes;
}

/** The nearest known name for a pattern without a match. */
export function nearName(pattern: string, cursor: Cursor, names: FaultNames): void {
  cursor.warn(
    "sheet.fault.unknown",
    "a cause, a part, or part/mode of this sheet",
    didYouMean(pattern, names.known),
    `"${pattern}"`,
  );
}
