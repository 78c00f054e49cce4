import { type Issue, IssueList } from "../issue/index.ts";
import { putTogether } from "./assemble.ts";
import { checkFormulas } from "./check-formulas.ts";
import { NamesInUse } from "./check-names.ts";
import { checkSources } from "./check-sources.ts";
import { checkWires } from "./check-wires.ts";
import { type Combination, combinations } from "./combine.ts";
import type { Library } from "./house.ts";
import type { Sheet } from "./sheet.ts";

/** Up to so many combinations are all looked at; of more, as many as show every pair of variants together. */
const MOST_LOOKED_AT = 400;

/**
 * What is wrong or doubtful in a sheet, over all its combinations, as far as no run is needed for it.
 * Errors are what `assemble` would refuse; warnings are what a careful reader would ask about. Each is given once.
 */
export function checkSheet(sheet: Sheet, library: Library): readonly Issue[] {
  const all = combinations(sheet);
  const issues = new Map<string, Issue>();
  const keep = (found: readonly Issue[]): void => {
    for (const issue of found) {
      const key = [issue.code, issue.file ?? "", issue.line ?? "", issue.at.join("."), issue.found].join("\n");
      if (!issues.has(key)) issues.set(key, issue);
    }
  };
  const names = new NamesInUse();
  for (const { choice } of worthLookingAt(sheet, all)) {
    const assembled = putTogether(sheet, library, choice);
    checkWires(sheet, assembled, choice);
    checkFormulas(assembled);
    checkSources(assembled, library);
    names.look(assembled);
    keep(assembled.issues.all);
  }
  keep(names.warnings());
  keep(checkSlots(sheet, all));
  return [...issues.values()].sort(byPlace);
}

function checkSlots(sheet: Sheet, all: readonly Combination[]): readonly Issue[] {
  const issues = new IssueList();
  const place = sheet.file === undefined ? {} : { file: sheet.file };
  for (const slot of sheet.slots.values()) {
    for (const variant of slot.variants.values()) {
      const at = ["slots", slot.id, "variants", variant.id];
      const warn = (code: string, found: string, expected: string) =>
        issues.add({ code, severity: "warning", ...place, line: variant.line, at, found, expected });
      if (variant.look === undefined) warn("sheet.variant.look", "no look", "look: how it is told from the others");
      if (!all.some(({ choice }) => choice.get(slot.id) === variant.id)) {
        warn("sheet.variant.never", `${variant.id} in no combination`, "a variant that some combination allows");
      }
    }
  }
  if (all.length === 0) {
    issues.add({
      code: "sheet.slots.none",
      severity: "error",
      ...place,
      at: ["slots"],
      found: "no combination that is allowed",
      expected: "at least one",
    });
  }
  return issues.all;
}

function worthLookingAt(sheet: Sheet, all: readonly Combination[]): readonly Combination[] {
  if (all.length <= MOST_LOOKED_AT) return all;
  const seen = new Set<string>();
  return all.filter(({ choice }) => {
    const names = [...choice].map(([slot, variant]) => `${slot}=${variant}`);
    const absent = [...sheet.slots.keys()].filter((slot) => !choice.has(slot));
    const facts = [...names, ...absent];
    const before = seen.size;
    facts.forEach((fact, index) => {
      for (const other of facts.slice(index)) seen.add(`${fact}\n${other}`);
    });
    return seen.size > before;
  });
}

function byPlace(a: Issue, b: Issue): number {
  const files = (a.file ?? "") < (b.file ?? "") ? -1 : Number((a.file ?? "") > (b.file ?? ""));
  return files || (a.line ?? 0) - (b.line ?? 0);
}
