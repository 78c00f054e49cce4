import type { Mode } from "../fault/index.ts";
import type { RemedyRule } from "../part/index.ts";
import type { Assembly, Machine, Part } from "../sheet/index.ts";
import { priceOf, type Shop } from "./shop.ts";

/** One thing that can be done about one fault: what it takes, costs and promises. */
export interface Course {
  /** `heater/new`, `control/fit assembly`, `lint/clean` */
  readonly id: string;
  /** Part, assembly or cause it is done to. */
  readonly on: string;
  readonly remedy: string;
  /** "heater: new" */
  readonly says: string;
  readonly minutes: number;
  /** Price of the part to the customer. */
  readonly price: number;
  /** The part has to be fetched: a second visit. */
  readonly fetched: boolean;
  /** Chance that it cures, and chance that the fault comes back within twelve months. */
  readonly cured: number;
  readonly back: number;
  readonly steps: readonly string[];
  readonly assembly: boolean;
  /** A connection is remade: no part is fitted, and a good one is replaced by nothing. */
  readonly remakes?: true;
  /** Protector of which it must be known why it opened, or it will open again. */
  readonly asksWhy?: string;
  /** Expected money: work, part, second visit, and its share of what a return costs. */
  readonly cost: number;
}

/** Chance that an opened protector was simply weak, where the sheet gives no table (common practice, no source). */
const ITSELF_WEAK = 0.1;

/**
 * What can be done about one fault of one machine: the kind's own remedies, the joint beside the board, the board beside the joint.
 *
 * A protector that opened as a victim comes back unless its cause was found: the odds of return are then those of the
 * sheet's table of reasons, all but "itself".
 *
 * @param whyKnown  protectors (part ids) of which it is known why they opened
 * @returns         courses, in the order of the kind; empty where nothing can be done
 */
export function coursesFor(
  machine: Machine,
  mode: Mode,
  shop: Shop,
  whyKnown: ReadonlySet<string> = new Set(),
): Course[] {
  if (mode.cause >= 0) {
    const cause = machine.causes[mode.cause];
    if (cause === undefined) throw new RangeError(`coursesFor: no cause ${mode.cause}`);
    return cause.remedies.map((rule) => courseOf(rule, { on: cause.id, says: cause.says, kind: undefined }, shop, {}));
  }
  const part = machine.parts[mode.part];
  if (part === undefined) throw new RangeError(`coursesFor: no part ${mode.part}`);
  const name = modeName(mode);
  const rules = part.instance.remedies.filter((rule) => rule.cures.some((pattern) => matchesName(pattern, name)));
  const assembly = machine.assemblies.find((one) => one.id === part.of);
  const why =
    mode.victim && !whyKnown.has(part.id) ? { protector: part.id, itself: itselfShare(machine, part) } : undefined;
  const place = { on: part.id, says: mode.partSays, kind: part.instance.kind };

  const courses = rules
    .filter((rule) => !rule.assembly)
    .map((rule) => {
      const remakes = rule.remakes === true || part.joint !== undefined;
      return courseOf(rule, place, shop, { remakes, ...(why === undefined ? {} : { why }) });
    });
  if (assembly !== undefined) {
    const own = rules.find((rule) => rule.assembly);
    courses.push(assemblyCourse(assembly, own?.minutes.nominal, shop));
  }
  return courses;
}

/** Name of a mode within its part: `burnt` of `heater/burnt`. */
export function modeName(mode: Mode): string {
  return mode.id.slice(mode.id.indexOf("/") + 1);
}

/** Does a pattern of remedies, links or tables (`all`, a name, or a beginning with `*`) mean this name? */
export function matchesName(pattern: string, name: string): boolean {
  if (pattern === "all" || pattern === name) return true;
  const star = pattern.indexOf("*");
  return (
    star >= 0 &&
    name.startsWith(pattern.slice(0, star)) &&
    name.endsWith(pattern.slice(star + 1)) &&
    name.length >= pattern.length - 1
  );
}

function itselfShare(machine: Machine, part: Part): number {
  const table = machine.whyOpen.get(part.id);
  return table === undefined ? ITSELF_WEAK : (table.get("itself") ?? 0);
}

function courseOf(
  rule: RemedyRule,
  place: { readonly on: string; readonly says: string; readonly kind: string | undefined },
  shop: Shop,
  extra: {
    readonly remakes?: boolean;
    readonly why?: { readonly protector: string; readonly itself: number };
  },
): Course {
  const price = Math.max(0, rule.partShare.nominal) * shop.newMachine;
  const minutes = rule.minutes.nominal;
  const fetched = price > 0 && place.kind !== undefined && !shop.van.has(place.kind);
  const back = extra.why === undefined ? rule.back : Math.max(rule.back, 1 - extra.why.itself);
  return {
    id: `${place.on}/${rule.name}`,
    on: place.on,
    remedy: rule.name,
    says: `${place.says}: ${rule.name}`,
    minutes,
    price,
    fetched,
    cured: rule.cured,
    back,
    steps: rule.steps,
    assembly: false,
    ...(extra.remakes === true ? { remakes: true as const } : {}),
    ...(extra.why === undefined ? {} : { asksWhy: extra.why.protector }),
    cost: courseCost(minutes, price, fetched, rule.cured, back, shop),
  };
}

function assemblyCourse(assembly: Assembly, ownMinutes: number | undefined, shop: Shop): Course {
  const price = Math.max(0, assembly.partShare.nominal) * shop.newMachine;
  const minutes = ownMinutes ?? assembly.minutes.nominal;
  const fetched = !shop.van.has(assembly.id);
  return {
    id: `${assembly.id}/fit assembly`,
    on: assembly.id,
    remedy: "fit assembly",
    says: `${assembly.says}: fit a whole one`,
    minutes,
    price,
    fetched,
    cured: assembly.cured,
    back: assembly.back,
    steps: assembly.coding ? ["Set it up for this machine: that can fail, and some need the maker's coding."] : [],
    assembly: true,
    cost: courseCost(minutes, price, fetched, assembly.cured, assembly.back, shop),
  };
}

function courseCost(minutes: number, price: number, fetched: boolean, cured: number, back: number, shop: Shop): number {
  return priceOf(minutes, shop) + price + (fetched ? shop.secondVisit : 0) + cured * back * shop.comeback;
}
