import type { IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean } from "../part/index.ts";
import type { Draft } from "./draft.ts";
import type { Access, Assembly } from "./machine.ts";
import type { Merged } from "./merge.ts";

export const ACCESS_KEYS = [
  "says",
  "min",
  "position",
  "needs",
  "may-run",
  "tools",
  "puts-back",
  "cautions",
  "after",
  "if",
  "only-if",
  "note",
] as const;
export const MAY_RUN = ["yes", "with the cover on only", "no"] as const;
export const CODING = ["yes", "maybe", "no"] as const;
export const ASSEMBLY_KEYS = ["says", "access", "min", "part", "odds", "coding", "if", "only-if", "note"] as const;

/** Access groups: what must be opened, in what position, and what is put back. Groups that wait for one another are refused. */
export function readAccess(merged: Merged, issues: IssueList): readonly Access[] {
  const entries = merged.section("access", issues);
  const ids = entries.map(([id]) => id);
  const groups = entries.map(([id, cursor]) => readGroup(id, cursor, ids));
  const after = new Map(groups.map((group) => [group.id, group.after]));
  for (const [id, cursor] of entries) {
    const seen = new Set<string>();
    let at: string | undefined = id;
    while (at !== undefined && !seen.has(at)) {
      seen.add(at);
      at = after.get(at);
    }
    if (at === id)
      cursor.field("after")?.refuse("sheet.access.cycle", "access groups that do not wait for one another");
  }
  return groups;
}

function readGroup(id: string, cursor: Cursor, ids: readonly string[]): Access {
  cursor.onlyKeys(ACCESS_KEYS);
  const [openMinutes, closeMinutes] = readMinutes(cursor.need("min", "min: minutes to open/close, as 4/3"));
  const afterCursor = cursor.field("after");
  const after = afterCursor?.word("another access group");
  if (after !== undefined && !ids.includes(after)) {
    afterCursor?.refuse("sheet.access.unknown", "an access group of this sheet", didYouMean(after, ids));
  }
  return {
    id,
    says: cursor.field("says")?.word() ?? id,
    openMinutes,
    closeMinutes,
    position: cursor.field("position")?.word() ?? "stands",
    needs: cursor.field("needs")?.words() ?? [],
    mayRun: cursor.field("may-run")?.choice(MAY_RUN) ?? "no",
    tools: cursor.field("tools")?.words() ?? [],
    putsBack: cursor.field("puts-back")?.words() ?? [],
    cautions: cursor.field("cautions")?.words() ?? [],
    ...(after === undefined ? {} : { after }),
  };
}

function readMinutes(cursor: Cursor | undefined): readonly [number, number] {
  const text = cursor?.word("minutes to open/close, as 4/3");
  const match = text === undefined ? null : /^(\d+(?:\.\d+)?)(?:\/(\d+(?:\.\d+)?))?$/.exec(text);
  if (text !== undefined && match === null) cursor?.refuse("sheet.access.minutes", "minutes to open/close, as 4/3");
  const open = Number(match?.[1] ?? 0);
  return [open, match?.[2] === undefined ? open : Number(match[2])];
}

/** Assemblies that are changed as a whole. */
export function readAssemblies(merged: Merged, issues: IssueList): readonly Assembly[] {
  return merged.section("assemblies", issues).flatMap(([id, cursor]) => {
    cursor.onlyKeys(ASSEMBLY_KEYS);
    const says = cursor.need("says", "what a technician calls it")?.word();
    const minutes = cursor.need("min", "min: minutes to fit it")?.amount({ unit: "min" });
    const partShare = cursor
      .need("part", "part: its price as a share of a comparable new machine")
      ?.amount({ unit: "1" });
    const odds = cursor.need("odds", "odds: cured/back within 12 months")?.chancePair();
    const coding = cursor.field("coding")?.choice(CODING) ?? "no";
    const access = cursor.field("access")?.word();
    if (says === undefined || minutes === undefined || partShare === undefined || odds === undefined) return [];
    const where = access === undefined ? {} : { access };
    return [{ id, says, ...where, minutes, partShare, cured: odds[0], back: odds[1], coding: coding !== "no" }];
  });
}

/** Every `access:` names an access group, every `of:` an assembly or a part. */
export function refuseUnknownReach(
  merged: Merged,
  access: readonly Access[],
  draft: Draft,
  assemblies: readonly Assembly[],
  issues: IssueList,
): void {
  const groups = access.map(({ id }) => id);
  const owners = [HOUSE, ...assemblies.map(({ id }) => id), ...draft.parts.keys(), ...draft.absent];
  const known = (cursor: Cursor | undefined, names: readonly string[], code: string, expected: string): void => {
    const name = cursor?.isText === true ? cursor.text() : undefined;
    if (name !== undefined && !names.includes(name)) cursor?.refuse(code, expected, didYouMean(name, names));
  };
  for (const section of ["parts", "plugs", "assemblies", "causes"]) {
    for (const [, cursor] of merged.section(section, issues)) {
      const measures = (cursor.field("measure") ?? cursor.field("measures"))?.entries().map(([, at]) => at) ?? [];
      for (const at of [cursor, cursor.field("look"), ...measures]) {
        known(at?.field("access"), groups, "sheet.access.unknown", "an access group of this sheet");
      }
      known(cursor.field("of"), owners, "sheet.owner.unknown", "an assembly or a part of this machine");
    }
  }
}

/** Owner of everything on the wall's side of the mains plug. */
const HOUSE = "house";
