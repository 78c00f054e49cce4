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

  /** Names that match: an exact one, a part for all its modes, or a pattern in which `*` is any run of letters. */
  matching(pattern: string): readonly string[] {
    const whole = this.#owners.has(pattern) ? `${pattern}/` : undefined;
    if (!pattern.includes("*"))
      return this.#all.filter((name) => name === pattern || (whole !== undefined && name.startsWith(whole)));
    const form = new RegExp(`^${pattern.split("*").map(escaped).join(".*")}(/.*)?$`);
    return this.#all.filter((name) => form.test(name));
  }

  get known(): readonly string[] {
    return [...this.#all, ...this.#owners];
  }
}

function escaped(text: string): string {
  return text.replace(/[.+?^${}()|[\]\\]/g, "\\$&");
}

/** Cause and victim, patterns written out. A link about a part that this combination does not have is passed over. */
export function readLinks(merged: Merged, names: FaultNames, issues: IssueList): readonly Link[] {
  const links = new Map<string, Link>();
  for (const cursor of merged.single("links", issues)?.items() ?? []) {
    cursor.onlyKeys(["cause", "victim", "p", "note"]);
    const cause = cursor.need("cause")?.word();
    const victim = cursor.need("victim")?.word();
    const p = cursor.need("p", "p: the chance of the victim, given the cause")?.chance();
    if (cause === undefined || victim === undefined || p === undefined) continue;
    for (const one of names.matching(cause)) {
      for (const other of names.matching(victim)) links.set(`${one}>${other}`, { cause: one, victim: other, p });
    }
  }
  return [...links.values()];
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
