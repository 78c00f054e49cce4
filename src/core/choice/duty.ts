import { addMonths } from "../day/index.ts";
import type { Checked } from "../issue/index.ts";
import { readDay } from "../ledger/index.ts";
import { type Cursor, readWith } from "../part/index.ts";

export const DUTIES_FORMAT = "faultwright-duties/1";
const DUTIES_KEYS = ["format", "duties"] as const;
const DUTY_KEYS = [
  "rule",
  "title",
  "where",
  "sheets",
  "placed from",
  "working days",
  "professional",
  "anyone",
] as const;
const GROUP_KEYS = ["years", "parts"] as const;

/** A maker's duty to deliver spare parts. Days are ISO 8601. */
export interface SparePartRule {
  readonly rule: string;
  readonly title: string;
  readonly where: "EU" | "GB";
  readonly sheets: readonly string[];
  /** It holds for units placed on the market from this day. */
  readonly placedFrom: string;
  /** Working days in which a part must be there. */
  readonly workingDays?: number;
  readonly professional?: PartGroup;
  readonly anyone?: PartGroup;
}

interface PartGroup {
  /** After the last unit of the model was placed on the market. */
  readonly years: number;
  /** Part kinds, and assemblies by id. */
  readonly parts: ReadonlySet<string>;
}

/** Whether a maker is still bound to deliver a part. */
export interface SparePartDuty {
  readonly rule: string;
  readonly title: string;
  readonly to: "professional" | "anyone";
  readonly years: number;
  readonly workingDays?: number;
  /** `unknown` where nobody told when the last unit was placed on the market, or this one. */
  readonly says: "bound" | "ended" | "older than the rule" | "unknown";
  /** Last day of the duty, where the last unit's day is known. */
  readonly until?: string;
}

/** What is known of the model. */
export interface ModelDays {
  readonly sheet: string;
  readonly country?: string;
  /** Today. */
  readonly date?: string;
  readonly ageYears?: number;
  /** Day on which the model's last unit was placed on the market. */
  readonly lastUnit?: string;
}

/** A file of duties, or every issue at once. */
export function readDuties(text: string, file?: string): Checked<readonly SparePartRule[]> {
  return readWith(text, file, (root) => {
    root.onlyKeys(DUTIES_KEYS);
    const format = root.need("format", `format: ${DUTIES_FORMAT}`);
    if (format !== undefined && format.text() !== DUTIES_FORMAT) format.refuse("duties.format", DUTIES_FORMAT);
    return (root.need("duties", "duties: a list")?.items() ?? []).flatMap((item) => readDuty(item) ?? []);
  });
}

function readDuty(at: Cursor): SparePartRule | undefined {
  at.onlyKeys(DUTY_KEYS);
  const rule = at.need("rule", "rule: its short name")?.word();
  const title = at.need("title", "title: regulation and point")?.word();
  const where = at.need("where", "where: EU | GB")?.choice(["EU", "GB"] as const);
  const placedFrom = readDay(at.need("placed from", "placed from: a day"));
  const workingDays = at.field("working days")?.number(1, 100);
  const professional = readGroup(at.field("professional"));
  const anyone = readGroup(at.field("anyone"));
  if (at.source === undefined) at.refuse("duties.no-source", "source: where it was read", undefined, "no source");
  if (rule === undefined || title === undefined || where === undefined || placedFrom === undefined) return undefined;
  return {
    rule,
    title,
    where,
    sheets: at.need("sheets", "sheets: families by name")?.words() ?? [],
    placedFrom,
    ...(workingDays === undefined ? {} : { workingDays }),
    ...(professional === undefined ? {} : { professional }),
    ...(anyone === undefined ? {} : { anyone }),
  };
}

function readGroup(at: Cursor | undefined): PartGroup | undefined {
  if (at === undefined) return undefined;
  at.onlyKeys(GROUP_KEYS);
  const years = at.need("years", "years after the last unit")?.number(1, 50);
  const parts = new Set(at.need("parts", "parts: kinds")?.words() ?? []);
  return years === undefined ? undefined : { years, parts };
}

/** Members of the European Union. @source ISO 3166-1 codes, from memory */
const UNION = new Set("AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK".split(" "));
/** A machine's age is told in whole years: it may be a year older. */
const AGE_DOUBT = 1;

/**
 * Is the maker bound to deliver this part?
 *
 * @param part  its kind, or an assembly by its id
 * @returns     none where no rule of that country names the part
 */
export function dutyFor(
  rules: readonly SparePartRule[],
  part: string,
  { sheet, country, date, ageYears, lastUnit }: ModelDays,
): SparePartDuty | undefined {
  const where = country === "GB" ? "GB" : UNION.has(country ?? "") ? "EU" : undefined;
  const rule = rules.find((one) => one.where === where && one.sheets.includes(sheet));
  if (rule === undefined) return undefined;
  const to = rule.anyone?.parts.has(part) === true ? "anyone" : "professional";
  const group = rule[to];
  if (group?.parts.has(part) !== true) return undefined;
  const told = {
    rule: rule.rule,
    title: rule.title,
    to,
    years: group.years,
    ...(rule.workingDays === undefined ? {} : { workingDays: rule.workingDays }),
  } as const;
  const bought = date === undefined || ageYears === undefined ? undefined : yearsLater(date, -ageYears);
  if (lastUnit !== undefined && lastUnit < rule.placedFrom) return { ...told, says: "older than the rule" };
  if (bought !== undefined && yearsLater(bought, AGE_DOUBT) < rule.placedFrom)
    return { ...told, says: "older than the rule" };
  if (lastUnit === undefined || date === undefined) return { ...told, says: "unknown" };
  const until = yearsLater(lastUnit, group.years);
  if (until < date) return { ...told, says: "ended", until };
  // That the model ran on past the rule's first day does not say that this very unit did.
  const isCovered = bought !== undefined && yearsLater(bought, -AGE_DOUBT) >= rule.placedFrom;
  return { ...told, says: isCovered ? "bound" : "unknown", until };
}

/** The same day some years on. Broken years go by whole months. */
function yearsLater(date: string, years: number): string {
  return addMonths(date, Math.round(years * 12));
}
