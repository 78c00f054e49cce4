import type { IssueList } from "../issue/index.ts";
import type { Cursor, RemedyRule } from "../part/index.ts";
import { isUnitCode, parseAmount, type UnitCode } from "../quantity/index.ts";
import type { Build } from "./build.ts";
import type { Cause } from "./machine.ts";
import type { Merged } from "./merge.ts";
import { settable } from "./programme.ts";

export const CAUSE_KEYS = [
  "says",
  "group",
  "share",
  "sets",
  "measure",
  "measures",
  "look",
  "remedy",
  "remedies",
  "if",
  "only-if",
  "note",
] as const;
export const CAUSE_GROUPS = ["use", "mechanical"] as const;
export const MEASURE_KEYS = ["says", "unit", "good", "bad", "min", "access", "cautions", "note"] as const;
export const LOOK_KEYS = ["says", "odds", "min", "access", "cautions", "note"] as const;
export const REMEDY_KEYS = ["min", "odds", "part", "steps", "note"] as const;
/** Minutes where a look or measurement gives none, from memory. */
const DEFAULT_LOOK_MINUTES = 2;
const DEFAULT_MEASURE_MINUTES = 5;

/** Causes that are not electrical: what they set in the world, how they are seen and measured, what cures them. */
export function readCauses(merged: Merged, build: Build, issues: IssueList): readonly Cause[] {
  return merged.section("causes", issues).flatMap(([id, cursor]) => readCause(id, cursor, build) ?? []);
}

function readCause(id: string, cursor: Cursor, build: Build): Cause | undefined {
  cursor.onlyKeys(CAUSE_KEYS);
  const says = cursor.need("says", "what a technician calls it")?.word();
  const share = cursor.need("share", "share: per 100 attended calls")?.number(0, 100);
  const group = cursor.field("group")?.choice(CAUSE_GROUPS) ?? "mechanical";
  const sets = (cursor.field("sets")?.entries() ?? []).flatMap(([name, at]) => {
    const variable = settable(name, at, build);
    const to = at.items().flatMap((item) => item.number() ?? []);
    return variable === undefined ? [] : [{ variable, to }];
  });
  const lengths = new Set(sets.map(({ to }) => to.length));
  if (lengths.size > 1) cursor.field("sets")?.refuse("sheet.cause.sets", "lists of one length: they go hand in hand");
  const measures = (cursor.field("measure") ?? cursor.field("measures"))?.entries() ?? [];
  const remedies = (cursor.field("remedy") ?? cursor.field("remedies"))?.entries() ?? [];
  const look = readLook(cursor.field("look"));
  if (says === undefined || share === undefined) return undefined;
  return {
    id,
    says,
    group,
    share,
    ...(cursor.source === undefined ? {} : { source: cursor.source }),
    sets,
    remedies: remedies.flatMap(([name, at]) => readRemedy(name, at) ?? []),
    measures: measures.flatMap(([name, at]) => readMeasure(name, at) ?? []),
    ...(look === undefined ? {} : { look }),
  };
}

function readRemedy(name: string, cursor: Cursor): RemedyRule | undefined {
  cursor.onlyKeys(REMEDY_KEYS);
  const minutes = cursor.need("min", "min: minutes")?.amount({ unit: "min" });
  const odds = cursor.need("odds", "odds: cured/back within 12 months")?.chancePair();
  const part = cursor.field("part")?.amount({ unit: "1" });
  if (minutes === undefined || odds === undefined) return undefined;
  return {
    name,
    cures: ["all"],
    assembly: false,
    minutes,
    partShare: part ?? { nominal: 0, lo: 0, hi: 0, spread: "exact", unit: "1" },
    cured: odds[0],
    back: odds[1],
    steps: cursor.field("steps")?.words() ?? [],
    ...(cursor.source === undefined ? {} : { source: cursor.source }),
  };
}

/** `load rise K: {good: 25..45, bad: 5..20}`; the last word of its name is the unit unless `unit:` says so. */
function readMeasure(name: string, cursor: Cursor): Cause["measures"][number] | undefined {
  cursor.onlyKeys(MEASURE_KEYS);
  const words = name.split(" ");
  const last = words.at(-1) ?? "";
  const unit = cursor.field("unit")?.word() ?? last;
  const id = cursor.field("unit") === undefined && words.length > 1 ? words.slice(0, -1).join(" ") : name;
  if (!isUnitCode(unit))
    return cursor.refuse("sheet.measure.unit", "a unit as the last word of its name, or unit:", undefined, `"${unit}"`);
  const good = readBand(cursor, "good", unit);
  const bad = readBand(cursor, "bad", unit);
  if (good === undefined || bad === undefined) return undefined;
  const access = cursor.field("access")?.word();
  return {
    id,
    says: cursor.field("says")?.word() ?? id,
    unit,
    good,
    bad,
    minutes: cursor.field("min")?.number(0) ?? DEFAULT_MEASURE_MINUTES,
    ...(access === undefined ? {} : { access }),
    cautions: cursor.field("cautions")?.words() ?? [],
  };
}

function readBand(cursor: Cursor, key: "good" | "bad", unit: UnitCode): Cause["measures"][number]["good"] | undefined {
  const at = cursor.need(key, `${key}: what is measured then`);
  const text = at?.word();
  return at === undefined || text === undefined ? undefined : at.issues.take(parseAmount(text, { unit, ...at.place }));
}

function readLook(cursor: Cursor | undefined): Cause["look"] {
  if (cursor === undefined) return undefined;
  if (cursor.isText) return lookOf(cursor.word() ?? "", [0.85, 0.05], DEFAULT_LOOK_MINUTES);
  cursor.onlyKeys(LOOK_KEYS);
  const says = cursor.need("says", "what is seen when it is bad")?.word();
  const odds = cursor.field("odds")?.chancePair("seen when bad / seen when good, as .9/.05") ?? [0.85, 0.05];
  const minutes = cursor.field("min")?.number(0) ?? DEFAULT_LOOK_MINUTES;
  const access = cursor.field("access")?.word();
  const cautions = cursor.field("cautions")?.words() ?? [];
  return says === undefined ? undefined : lookOf(says, odds, minutes, access, cautions);
}

function lookOf(
  says: string,
  [hit, falseAlarm]: readonly [number, number],
  minutes: number,
  access?: string,
  cautions: readonly string[] = [],
): NonNullable<Cause["look"]> {
  return { says, odds: { hit, falseAlarm }, minutes, ...(access === undefined ? {} : { access }), cautions };
}
