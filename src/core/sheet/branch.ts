import { type Checked, IssueList } from "../issue/index.ts";
import { Cursor, didYouMean, instantiate, type Kind, type KindInstance, type Tree } from "../part/index.ts";
import { parseAmount } from "../quantity/index.ts";
import type { Library } from "./house.ts";
import { layerOf } from "./sections.ts";
import type { Sheet } from "./sheet.ts";

/** Ends of a branch that the house brings: they may be named, and are passed over. */
const FROM_THE_HOUSE: ReadonlySet<string> = new Set(["plug", "cord", "socket"]);
const DEFAULT_SUPPLY = { house: "single 230", class: "I", line: 1 } as const;
const MOST_PARTS = 60;
/** Nothing is said of where the parts are: they lie behind one cover (minutes from memory). */
const COVER = "cover";
/** The kind that energises what a branch does not: the coil of a relay. */
const DRIVER = "commanded-output";

/**
 * A sheet of one branch: kinds in order from line to neutral, everything else their defaults.
 *
 * @example branchSheet("plug,cord,switch,cutout,heater:2kW,relay", library)
 */
export function branchSheet(list: string, library: Library, supply: Sheet["supply"] = DEFAULT_SUPPLY): Checked<Sheet> {
  const issues = new IssueList();
  const items: Tree[] = list.split(",").map((text) => ({ is: "text", text: text.trim(), line: 1 }));
  const cursor = new Cursor({ is: "list", line: 1, items }, { at: ["branch"] }, issues);
  const sheet = drawBranch(cursor, library, supply, `branch: ${list}`);
  return issues.conclude(() => sheet as Sheet);
}

/** The sheet that a file's `branch:` list stands for; its other sections are laid over it. */
export function branchFrom(
  branch: Cursor,
  root: Cursor,
  library: Library,
  supply?: Sheet["supply"],
): Sheet | undefined {
  const title = root.field("sheet")?.word() ?? "branch";
  const drawn = drawBranch(branch, library, supply ?? DEFAULT_SUPPLY, title);
  const own = layerOf(root, ["format", "sheet", "weight", "supply", "use", "slots", "pieces", "branch", "note"]);
  if (drawn === undefined || own === undefined) return undefined;
  // A condition without parts always holds.
  const pieces = new Map([["own", { layer: own, if: { is: "and", of: [] } as const }]]);
  return root.place.file === undefined ? { ...drawn, pieces } : { ...drawn, pieces, file: root.place.file };
}

interface Link {
  readonly id: string;
  readonly kind: Kind;
  readonly instance: KindInstance;
  readonly rating?: { readonly name: string; readonly text: string };
  readonly ends: readonly [string, string];
  /** Pins of a second circuit (a relay's coil), to be energised. */
  readonly coil?: readonly [string, string];
  /** Pins at the case. */
  readonly toCase: readonly string[];
}

function drawBranch(branch: Cursor, library: Library, supply: Sheet["supply"], title: string): Sheet | undefined {
  const items = branch.items();
  if (items.length > MOST_PARTS) return branch.refuse("sheet.branch.long", `at most ${MOST_PARTS} parts`);
  const house = library.houses.get(supply.house);
  if (house === undefined) {
    return branch.refuse("sheet.house.unknown", "a house supply of the library", undefined, `"${supply.house}"`);
  }
  const links: Link[] = [];
  const count = new Map([...house.partNames].map((name) => [name, 1]));
  let wrong = false;
  for (const item of items) {
    const link = readLink(item, library, count);
    if (link === "wrong") wrong = true;
    else if (link !== "house") links.push(link);
  }
  if (wrong) return undefined;
  if (links.length === 0) return branch.refuse("sheet.branch.empty", "at least one part between line and neutral");
  const line = house.atThePlug.lines.length === 1 ? "L" : "L1";
  const tree = mapOf({
    inputs: { room: "20" },
    wires: Object.fromEntries([
      ["case", "bare metal"],
      ...links.slice(1).map((_, i) => [`w${i + 1}`, `wire ${i + 1}`]),
    ]),
    parts: Object.fromEntries(
      links.flatMap((link, index) => partsOf(link, index, links.length, line, supply.class === "I")),
    ),
    access: {
      [COVER]: { says: "cover over the branch", min: "5/5", position: "stands", "may-run": "with the cover on only" },
    },
    quantities: { current: `${house.atThePlug.lines[0] ?? "cord.line1"}.amps` },
    steps: { "plugged-in": "", on: { drives: Object.fromEntries(outputsOf(links).map((id) => [id, ""])) } },
    signs: { ...SIGNS, ...movementsOf(links) },
  });
  const layer = { tree, at: ["branch"], source: { mark: "C" } as const, ...fileOf(branch) };
  const path = links.map(({ id, ends }) => ({ part: id, ends }));
  return {
    title,
    weightJobs: 20,
    supply,
    base: layer,
    uses: [],
    pieces: new Map(),
    slots: new Map(),
    path,
    ...fileOf(branch),
  };
}

const SIGNS: { readonly [sign: string]: Nested } = {
  works: {
    ask: "Does it do anything: warm, light, hum or turn?",
    in: "on",
    at: "minutes",
    levels: { nothing: "current < 5% of good current", weak: "current < 75% of good current", works: "else" },
    told: ".9/.05",
    seen: ".98/.02",
  },
  "trips the RCD": {
    ask: "When does the RCD of the house drop?",
    "when-first": "rcd.tripped > 0",
    answers: "never | plugged-in | on",
    told: ".85/.10",
    seen: ".98/.01",
  },
};

/** What a kind gives when it moves something. */
const MOVES = ["turns", "works", "pumps", "blows", "moves", "flows"];

/** Whether what should move does: it may take current and stand still. */
function movementsOf(links: readonly Link[]): { readonly [sign: string]: Nested } {
  return Object.fromEntries(
    links.flatMap(({ id, instance }) => {
      const given = MOVES.find((name) => instance.gives.has(name));
      if (given === undefined) return [];
      return [
        [
          `${id} runs`,
          {
            ask: `Does it run or flow: ${instance.says}?`,
            in: "on",
            "true-when": `${id}.${given} > 0 at minutes`,
            told: ".9/.05",
            seen: ".98/.02",
          },
        ] as const,
      ];
    }),
  );
}

/** `heater:2kW`, `heater 2000 W`, `cutout`, `heater:P=2kW`. */
function readLink(item: Cursor, library: Library, count: Map<string, number>): Link | "house" | "wrong" {
  const text = item.word("a kind of part")?.trim() ?? "";
  const match = /^([A-Za-z][\w-]*)(?:[\s:]+(.+))?$/.exec(text);
  const typed = match?.[1] ?? text;
  if (FROM_THE_HOUSE.has(typed)) return "house";
  const kind = kindNamed(typed, library);
  if (kind === undefined) {
    const meant = didYouMean(typed, library.kinds.keys()) ?? kindsCalled(typed, library);
    item.refuse("sheet.kind.unknown", "a kind of the library", meant);
    return "wrong";
  }
  const rating = match?.[2] === undefined ? undefined : ratingFor(kind, match[2], item);
  if (rating === "wrong") return "wrong";
  const ratings = rating === undefined ? [] : [[rating.name, { text: rating.text, line: item.line }] as const];
  const instance = item.issues.take(instantiate(kind, new Map(ratings), item.place));
  const pins = instance && pinsInBranch(instance);
  if (instance === undefined) return "wrong";
  if (pins === undefined) {
    item.refuse(
      "sheet.branch.kind",
      "a part with two ends (and at most a coil)",
      "Write a sheet for a circuit with more.",
    );
    return "wrong";
  }
  const number = (count.get(kind.id) ?? 0) + 1;
  count.set(kind.id, number);
  const id = number === 1 ? kind.id : `${kind.id}-${number}`;
  return { id, kind, instance, ...(rating === undefined ? {} : { rating }), ...pins };
}

/** The kind of that name, hyphens or not. */
function kindNamed(typed: string, library: Library): Kind | undefined {
  const bare = (name: string): string => name.replaceAll("-", "").toLowerCase();
  const known = library.kinds.get(typed);
  if (known !== undefined) return known;
  for (const [id, kind] of library.kinds) if (bare(id) === bare(typed)) return kind;
  return undefined;
}

/** Kinds with that word in their name, for someone who does not know how they are called here. */
function kindsCalled(typed: string, library: Library): string | undefined {
  const word = typed.toLowerCase();
  const called = [...library.kinds].filter(([id, { says }]) => id.includes(word) || says.includes(word));
  const names = called.map(([id]) => id).filter((id) => !id.startsWith("joint-"));
  return names.length === 0 ? undefined : `Known by that word: ${names.join(", ")}.`;
}

/** The rating that a bare value means: the one of its unit, else the first that the kind asks. */
function ratingFor(kind: Kind, text: string, item: Cursor): { readonly name: string; readonly text: string } | "wrong" {
  const named = /^([A-Za-z][\w-]*)\s*=\s*(.+)$/.exec(text);
  if (named !== null && kind.asks.has(named[1] ?? "")) return { name: named[1] ?? "", text: named[2] ?? "" };
  const amounts = [...kind.asks].filter(([, asked]) => asked.is === "amount");
  const written = parseAmount(text, item.place);
  if (!written.ok || amounts.length === 0) {
    if (!written.ok) item.issues.take(written);
    else item.refuse("sheet.branch.rating", `no rating: a ${kind.id} asks for none`);
    return "wrong";
  }
  const unit = written.value.unit;
  const same = amounts.find(
    ([, asked]) => asked.is === "amount" && unit !== undefined && asked.otherwise?.unit === unit,
  );
  const plain = unit === undefined || unit === "1" ? amounts[0] : undefined;
  const name = (same ?? plain)?.[0];
  if (name !== undefined) return { name, text };
  item.refuse("sheet.branch.rating", `a rating of a ${kind.id}: ${amounts.map(([rating]) => rating).join(", ")}`);
  return "wrong";
}

/**
 * Which pins lie in the branch. Two pins that elements join make a circuit; a switch between two pins is a contact and
 * goes before anything else; a pin that no element touches is the case.
 */
function pinsInBranch(instance: KindInstance): Pick<Link, "ends" | "coil" | "toCase"> | undefined {
  const circuits = circuitsOf(instance);
  const hasSwitch = (pins: readonly string[]): boolean =>
    instance.elements.some(({ what, from, to }) => what === "switch" && pins.includes(from) && pins.includes(to));
  const pairs = circuits
    .filter((pins) => pins.length === 2)
    .sort((a, b) => Number(hasSwitch(b)) - Number(hasSwitch(a)));
  const [ends, coil, ...more] = pairs;
  const [first, second] = ends ?? [];
  const others = circuits.filter((pins) => pins.length > 2);
  if (first === undefined || second === undefined || more.length > 0 || others.length > 0) return undefined;
  const toCase = circuits.filter((pins) => pins.length === 1).flat();
  const [plus, minus] = coil ?? [];
  return {
    ends: [first, second],
    ...(plus === undefined || minus === undefined ? {} : { coil: [plus, minus] }),
    toCase,
  };
}

/** Pins grouped by what the kind's elements join. */
function circuitsOf(instance: KindInstance): readonly (readonly string[])[] {
  const group = new Map<string, string>();
  const find = (name: string): string => {
    const up = group.get(name);
    return up === undefined || up === name ? name : find(up);
  };
  for (const { what, from, to } of instance.elements) if (what !== "leak") group.set(find(from), find(to));
  const circuits = new Map<string, string[]>();
  for (const pin of instance.pins.keys()) circuits.set(find(pin), [...(circuits.get(find(pin)) ?? []), pin]);
  return [...circuits.values()];
}

function partsOf(
  link: Link,
  index: number,
  total: number,
  line: string,
  earthed: boolean,
): readonly [string, Nested][] {
  const from = index === 0 ? line : `w${index}`;
  const to = index === total - 1 ? "N" : `w${index + 1}`;
  const part: Record<string, Nested> = {
    kind: link.kind.id,
    [link.ends[0]]: from,
    [link.ends[1]]: to,
    access: COVER,
  };
  if (link.rating !== undefined) part[link.rating.name] = link.rating.text;
  for (const [name, asked] of link.kind.asks) {
    if (asked.is === "formula" && asked.otherwise === undefined) part[name] = "room";
  }
  for (const pin of link.toCase) part[pin] = earthed ? "PE" : "case";
  if (link.coil === undefined) return [[link.id, part]];
  const [plus, minus] = link.coil;
  const driver: Record<string, Nested> = {
    kind: DRIVER,
    plus: `${link.id} plus`,
    minus: `${link.id} minus`,
    of: link.id,
    access: COVER,
  };
  const volts = link.instance.ratings.get("U");
  if (volts !== undefined) driver.U = `${volts.nominal} V ±5%`;
  // Coil and contact are told apart from what commands them by volts, while it is commanded.
  part.live = "clipped";
  part[plus] = `${link.id} plus`;
  part[minus] = `${link.id} minus`;
  return [
    [link.id, part],
    [`${link.id}-command`, driver],
  ];
}

/** Parts that the step `on` drives. */
function outputsOf(links: readonly Link[]): readonly string[] {
  return links.flatMap((link) => [
    ...(link.instance.knobs.has("drive") ? [link.id] : []),
    ...(link.coil === undefined ? [] : [`${link.id}-command`]),
  ]);
}

type Nested = string | { readonly [key: string]: Nested };

function mapOf(from: { readonly [key: string]: Nested }): Extract<Tree, { is: "map" }> {
  const entries = Object.entries(from).map(([key, value]) => [key, { line: 1, value: treeOf(value) }] as const);
  return { is: "map", line: 1, entries: new Map(entries) };
}

function treeOf(value: Nested): Tree {
  return typeof value === "string" ? { is: "text", text: value, line: 1 } : mapOf(value);
}

function fileOf(cursor: Cursor): { readonly file?: string } {
  return cursor.place.file === undefined ? {} : { file: cursor.place.file };
}
