import type { IssueList } from "../issue/index.ts";
import type { Draft } from "./draft.ts";
import { matchesFault } from "./fault-names.ts";
import type { Link } from "./machine.ts";
import type { Merged } from "./merge.ts";

export const LINK_KEYS = ["cause", "victim", "p", "note"] as const;

/** Cause and victim, patterns written out. A link about a part that this combination does not have is passed over. */
export function readLinks(merged: Merged, faults: readonly string[], issues: IssueList): readonly Link[] {
  const links = new Map<string, Link>();
  for (const cursor of merged.single("links", issues)?.items() ?? []) {
    cursor.onlyKeys(LINK_KEYS);
    const cause = cursor.need("cause")?.word();
    const victim = cursor.need("victim")?.word();
    const p = cursor.need("p", "p: the chance of the victim, given the cause")?.chance();
    if (cause === undefined || victim === undefined || p === undefined) continue;
    const victims = faults.filter((fault) => matchesFault(victim, fault));
    for (const one of faults.filter((fault) => matchesFault(cause, fault))) {
      for (const other of victims) links.set(`${one}>${other}`, { cause: one, victim: other, p });
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
