import type { Checked } from "../issue/index.ts";
import { type Cursor, didYouMean, readWith } from "../part/index.ts";
import { branchFrom } from "./branch.ts";
import type { House, Library } from "./house.ts";
import { layerOf, SECTIONS } from "./sections.ts";
import type { Piece, Sheet, Slot, Variant } from "./sheet.ts";
import { parseSlotTest, type SlotNames, type SlotTest, slotsIn } from "./slot-test.ts";

export const SHEET_FORMAT = "faultwright-sheet/1";
export const OWN_KEYS = ["format", "sheet", "weight", "supply", "use", "slots", "pieces", "branch", "note"] as const;
export const VARIANT_KEYS = ["look", "share", "only-if", "use"] as const;
export const PIECE_KEYS = ["if", "only-if"] as const;
export const SUPPLY_KEYS = ["house", "class"] as const;
export const PROTECTION_CLASSES = ["I", "II"] as const;
export const SLOT_KEYS = ["ask", "only-if", "edge", "variants", "min"] as const;
/** More combinations than this are a mistake, or an attack. */
export const MOST_COMBINATIONS = 20_000;
const DEFAULT_WEIGHT_JOBS = 20;

/**
 * Reads a wiring sheet, `faultwright-sheet/1`: its slots and pieces, and that every section is one that is known.
 * What stands in the sections is read when a machine is assembled; `checkSheet` does that for all of them.
 *
 * @param library  kinds and houses it may name; only a branch looks at the kinds here
 */
export function readSheet(text: string, file: string | undefined, library: Library): Checked<Sheet> {
  return readWith(text, file, (root) => {
    root.onlyKeys([...OWN_KEYS, ...SECTIONS]);
    root.need("format")?.choice([SHEET_FORMAT]);
    const branch = root.field("branch");
    if (branch !== undefined) {
      const supply = root.field("supply") === undefined ? undefined : readSupply(root, library);
      return branchFrom(branch, root, library, supply);
    }
    const title = root.need("sheet", "the name of the family or machine")?.word();
    const supply = readSupply(root, library);
    const names = slotNames(root);
    const pieces = readPieces(root, names, library);
    const known = { own: pieces, shared: library.pieces };
    const uses = readUses(root, { ...known, own: new Map() });
    const slots = readSlots(root, names, known);
    const layers = layersOf(root);
    checkConditions(layers, names);
    const house = supply === undefined ? undefined : library.houses.get(supply.house);
    if (house !== undefined) refuseHouseNames(layers, house);
    const base = layerOf(root, OWN_KEYS);
    if (title === undefined || supply === undefined || base === undefined) return undefined;
    const place = file === undefined ? {} : { file };
    const source = root.source === undefined ? {} : { source: root.source };
    return { ...place, ...source, title, weightJobs: readWeight(root), supply, base, uses, pieces, slots };
  });
}

function readWeight(root: Cursor): number {
  const cursor = root.field("weight");
  const text = cursor?.word("a number of jobs, as 40 jobs");
  if (cursor === undefined || text === undefined) return DEFAULT_WEIGHT_JOBS;
  const jobs = /^(\d+(?:\.\d+)?)\s*jobs?$/.exec(text)?.[1];
  if (jobs === undefined) cursor.refuse("sheet.weight", "a number of jobs, as 40 jobs");
  return jobs === undefined ? DEFAULT_WEIGHT_JOBS : Number(jobs);
}

function readSupply(root: Cursor, library: Library): Sheet["supply"] | undefined {
  const cursor = root.need("supply", "supply: {house: single 230, class: I}");
  if (cursor === undefined) return undefined;
  cursor.onlyKeys(SUPPLY_KEYS);
  const houseCursor = cursor.need("house");
  const house = houseCursor?.word();
  const protection = cursor.need("class")?.choice(PROTECTION_CLASSES);
  if (house === undefined || protection === undefined) return undefined;
  if (!library.houses.has(house)) {
    houseCursor?.refuse(
      "sheet.house.unknown",
      "a house supply of the library",
      didYouMean(house, library.houses.keys()),
    );
    return undefined;
  }
  return { house, class: protection, line: cursor.line };
}

function slotNames(root: Cursor): SlotNames {
  const names = new Map<string, readonly string[]>();
  for (const [slot, cursor] of root.field("slots")?.entries() ?? []) {
    names.set(
      slot,
      cursor
        .field("variants")
        ?.entries()
        .map(([variant]) => variant) ?? [],
    );
  }
  return names;
}

function readTest(cursor: Cursor | undefined, names: SlotNames): { readonly test?: SlotTest } {
  const text = cursor?.word("a condition on slots");
  if (cursor === undefined || text === undefined) return {};
  const test = cursor.issues.take(parseSlotTest(text, names, cursor.place));
  return test === undefined ? {} : { test };
}

function readPieces(root: Cursor, names: SlotNames, library: Library): ReadonlyMap<string, Piece> {
  const pieces = new Map<string, Piece>();
  for (const [id, cursor] of root.field("pieces")?.entries() ?? []) {
    cursor.onlyKeys([...PIECE_KEYS, ...SECTIONS]);
    if (library.pieces.has(id)) {
      cursor.refuse("sheet.piece.twice", "a name that no shared piece has", undefined, `"${id}"`);
    }
    const { test } = readTest(cursor.field("if") ?? cursor.field("only-if"), names);
    const layer = layerOf(cursor, PIECE_KEYS);
    if (layer !== undefined) pieces.set(id, { layer, ...(test === undefined ? {} : { if: test }) });
  }
  return pieces;
}

/** Pieces that `use:` may name. */
interface KnownPieces {
  readonly own: ReadonlyMap<string, Piece>;
  readonly shared: Library["pieces"];
}

function readUses(cursor: Cursor, { own, shared }: KnownPieces): readonly string[] {
  return (cursor.field("use")?.items() ?? []).flatMap((use) => {
    const name = use.word("the name of a piece");
    if (name === undefined || own.has(name) || shared.has(name)) return name ?? [];
    const hint = didYouMean(name, [...own.keys(), ...shared.keys()]);
    const expected = own.size === 0 ? "a shared piece of the library" : "a piece of this sheet, or a shared one";
    return use.refuse("sheet.piece.unknown", expected, hint) ?? [];
  });
}

function readSlots(root: Cursor, names: SlotNames, pieces: KnownPieces): ReadonlyMap<string, Slot> {
  const slots = new Map<string, Slot>();
  let combinations = 1;
  for (const [id, cursor] of root.field("slots")?.entries() ?? []) {
    cursor.onlyKeys(SLOT_KEYS);
    const { test } = readTest(cursor.field("only-if"), names);
    const variants = new Map<string, Variant>();
    for (const [name, entry] of cursor.need("variants")?.entries() ?? []) {
      const variant = readVariant(name, entry, names, pieces);
      if (variant !== undefined) variants.set(name, variant);
    }
    const total = [...variants.values()].reduce((sum, variant) => sum + variant.share, 0);
    if (variants.size > 0 && Math.abs(total - 100) > 0.5) {
      cursor.refuse(
        "sheet.slot.shares",
        "shares of variants that add up to 100",
        undefined,
        `shares that add up to ${total}`,
      );
    }
    combinations *= variants.size;
    slots.set(id, {
      id,
      ask: cursor.need("ask", "the question that tells the variants apart")?.word() ?? id,
      minutes: cursor.field("min")?.number(0) ?? 1,
      ...(test === undefined ? {} : { onlyIf: test }),
      edge: cursor.field("edge")?.words() ?? [],
      variants,
      line: cursor.keyLine,
    });
  }
  if (combinations > MOST_COMBINATIONS) {
    const found = `${combinations} combinations of variants`;
    root
      .field("slots")
      ?.refuse("sheet.slot.too-many", `at most ${MOST_COMBINATIONS}`, "Join slots that interact.", found);
  }
  refuseCycles(root, slots);
  return slots;
}

function readVariant(id: string, cursor: Cursor, names: SlotNames, pieces: KnownPieces): Variant | undefined {
  cursor.onlyKeys([...VARIANT_KEYS, ...SECTIONS]);
  const share = cursor.need("share", "a share of the family, per cent")?.number(0, 100) ?? 0;
  const look = cursor.field("look")?.word();
  const { test } = readTest(cursor.field("only-if"), names);
  const uses = readUses(cursor, pieces);
  const layer = layerOf(cursor, VARIANT_KEYS);
  if (layer === undefined) return undefined;
  return {
    id,
    share,
    ...(look === undefined ? {} : { look }),
    ...(test === undefined ? {} : { onlyIf: test }),
    uses,
    layer,
    line: cursor.keyLine,
  };
}

/** Two slots may not each wait for the other's answer. */
function refuseCycles(root: Cursor, slots: ReadonlyMap<string, Slot>): void {
  const waitsFor = (id: string, seen: ReadonlySet<string>): boolean => {
    if (seen.has(id)) return true;
    const test = slots.get(id)?.onlyIf;
    return test !== undefined && slotsIn(test).some((other) => waitsFor(other, new Set([...seen, id])));
  };
  for (const [id, cursor] of root.field("slots")?.entries() ?? []) {
    if (!waitsFor(id, new Set())) continue;
    cursor.field("only-if")?.refuse("sheet.slot.cycle", "slots that do not wait for one another");
  }
}

/** The family itself, its pieces, and the variants of its slots. */
function layersOf(root: Cursor): readonly Cursor[] {
  const pieces =
    root
      .field("pieces")
      ?.entries()
      .map(([, piece]) => piece) ?? [];
  const slots = root.field("slots")?.entries() ?? [];
  const variants = slots.flatMap(
    ([, slot]) =>
      slot
        .field("variants")
        ?.entries()
        .map(([, variant]) => variant) ?? [],
  );
  return [root, ...pieces, ...variants];
}

/** Every `if` of an entry is a condition on slots; wrong ones are found here, once, in every layer. */
function checkConditions(layers: readonly Cursor[], names: SlotNames): void {
  for (const layer of layers) {
    for (const section of SECTIONS) {
      const cursor = layer.field(section);
      if (cursor === undefined || !cursor.isMap) continue;
      for (const [, entry] of cursor.entries()) {
        if (entry.isMap) readTest(entry.field("only-if") ?? entry.field("if"), names);
      }
    }
  }
}

/** A sheet may say more of a part of the house (where its cord sits), but a part of its own needs its own name. */
function refuseHouseNames(layers: readonly Cursor[], house: House): void {
  for (const layer of layers) {
    for (const [id, part] of layer.field("parts")?.entries() ?? []) {
      if (!house.partNames.has(id) || part.field("kind") === undefined) continue;
      part.refuse(
        "sheet.name.house",
        "a name that the house supply does not use",
        "Call the part something else.",
        `"${id}"`,
      );
    }
  }
}
