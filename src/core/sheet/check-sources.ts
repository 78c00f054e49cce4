import type { Assembled } from "./assemble.ts";
import type { Library } from "./house.ts";

/** Numbers that say nothing of where they come from, and questions of a kind that the sheet leaves silent. */
export function checkSources({ draft, merged, machine, issues }: Assembled, library: Library): void {
  for (const part of draft.parts.values()) {
    for (const [name, rated] of part.instance.ratings) {
      const at = part.cursor.field(name) ?? part.cursor;
      if (rated.source === undefined) unsourced(at, `${name} of ${part.id}`);
    }
    if (part.share > 0 && part.shareSource === undefined) unsourced(part.cursor, `share of ${part.id}`);
    const kind = library.kinds.get(part.instance.kind);
    for (const [name, asked] of kind?.asks ?? []) {
      if (asked.is !== "word" || part.cursor.field(name) !== undefined) continue;
      const hint = `Write ${name}: ${asked.words.join(" or ")}.`;
      part.cursor.warn("sheet.part.silent", `a word for ${name}`, hint, `no ${name}, taken as ${asked.words[0] ?? ""}`);
    }
    for (const pin of part.instance.pins.keys()) {
      if (kind?.asks.has(pin) !== true) continue;
      part.cursor.warn("sheet.kind.name-twice", "pins and ratings of different names", undefined, `${pin} is both`);
    }
  }
  checkReach({ draft, machine });
  for (const [id, cursor] of merged.section("causes", issues))
    if (cursor.source === undefined) unsourced(cursor, `cause ${id}`);
  for (const [id, cursor] of merged.section("signs", issues))
    if (cursor.source === undefined) unsourced(cursor, `odds of ${id}`);
  const total =
    machine.parts.reduce((sum, { share }) => sum + share, 0) +
    machine.causes.reduce((sum, { share }) => sum + share, 0);
  if (total > 0) return;
  issues.add({
    code: "sheet.shares.none",
    severity: "error",
    at: ["parts"],
    found: "shares that are all 0",
    expected: "a share at some part or cause",
  });
}

function unsourced(
  cursor: { warn: (code: string, expected: string, hint?: string, found?: string) => void },
  what: string,
): void {
  cursor.warn(
    "sheet.source.none",
    "a source",
    "Write source: at the sheet or block, or a mark behind the number (20 mA @C).",
    what,
  );
}

/** Where a sheet has covers at all, every part and plug of the machine says behind which it sits. */
function checkReach({ draft, machine }: Pick<Assembled, "draft" | "machine">): void {
  if (machine.access.length === 0) return;
  const access = new Map(machine.parts.map((part) => [part.id, part.access]));
  const covered = new Set(machine.points.flatMap((point) => (point.access === undefined ? [] : [point.id])));
  const own = machine.plugs.flatMap(({ id, of }) => (of === HOUSE ? [] : [id]));
  for (const id of own) {
    const plug = draft.plugs.get(id);
    if (plug === undefined || plug.access !== undefined) continue;
    plug.cursor.warn(
      "sheet.access.none",
      "the cover behind which it sits",
      "Write access: one of the groups.",
      `${id} without access`,
    );
  }
  for (const part of draft.parts.values()) {
    if (part.of !== undefined || access.get(part.id) !== undefined) continue;
    const points = machine.points.filter(({ id }) => id.startsWith(`${part.id}.`));
    if (points.length === 0 || points.some(({ id }) => covered.has(id))) continue;
    part.cursor.warn(
      "sheet.access.none",
      "the cover behind which it sits",
      "Write access: one of the groups.",
      `${part.id} without access`,
    );
  }
}

const HOUSE = "house";
