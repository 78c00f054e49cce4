import type { IssueList } from "../issue/index.ts";
import {
  type Cursor,
  didYouMean,
  instantiate,
  type Kind,
  type KindInstance,
  type RatingText,
  type Tree,
} from "../part/index.ts";
import type { Draft, DraftPart, DraftPin, DraftPlug, JointRow } from "./draft.ts";
import type { Library } from "./house.ts";
import type { Merged } from "./merge.ts";

export const PART_KEYS = [
  "kind",
  "of",
  "access",
  "share",
  "source",
  "says",
  "tabs",
  "live",
  "points",
  "modes",
  "by-hand",
  "if",
  "only-if",
  "note",
] as const;
const isPartKey: ReadonlySet<string> = new Set(PART_KEYS);
export const JOINT_ROW_KEYS = ["share", "at", "if", "only-if", "note"] as const;
export const PLUG_KEYS = [
  "of",
  "ways",
  "pin 1",
  "access",
  "clip",
  "live",
  "joint",
  "says",
  "inside",
  "pin-says",
  "pins",
  "if",
  "only-if",
  "note",
] as const;

/** Reads the circuit of a merged sheet: its parts, plugs and wires by name. */
export function drawCircuit(merged: Merged, library: Library, issues: IssueList): Draft {
  const parts = new Map<string, DraftPart>();
  for (const [id, cursor] of merged.section("parts", issues)) {
    const part = readPart(id, cursor, library);
    if (part !== undefined) parts.set(id, part);
  }
  const plugs = new Map<string, DraftPlug>();
  for (const [id, cursor] of merged.section("plugs", issues)) {
    const plug = readPlug(id, cursor);
    if (plug !== undefined) plugs.set(id, plug);
  }
  const wireLooks = new Map<string, string>();
  for (const [wire, cursor] of merged.section("wires", issues)) {
    const look = cursor.text("what the wire looks like");
    if (look !== undefined) wireLooks.set(wire, look);
  }
  const sameWire: (readonly [string, string])[] = [];
  for (const group of merged.single("same-wire", issues)?.items() ?? []) {
    const [first, ...others] = group.words("a list of wires that are one");
    if (first === undefined || others.length === 0) group.refuse("sheet.same-wire", "two wires or more");
    else for (const other of others) sameWire.push([first, other]);
  }
  const jointRows = merged.section("joint-rows", issues).flatMap(([id, cursor]) => readJointRow(id, cursor) ?? []);
  return { parts, plugs, sameWire, wireLooks, jointRows, absent: new Set(), issues };
}

/**
 * Parts by the lines they were read from: most stand unchanged in many combinations of one sheet. Only those that were
 * read without an issue are kept.
 */
const remembered = new WeakMap<Tree, { readonly library: Library; readonly part: DraftPart }>();

/** A part as its line says, or every issue of that line. */
export function readPart(id: string, cursor: Cursor, library: Library): DraftPart | undefined {
  const known = remembered.get(cursor.tree);
  if (known?.library === library && known.part.id === id) {
    return { ...known.part, cursor, pins: new Map(known.part.pins) };
  }
  const before = cursor.issues.all.length;
  const part = readPartAnew(id, cursor, library);
  if (part !== undefined && cursor.issues.all.length === before) {
    remembered.set(cursor.tree, { library, part: { ...part, pins: new Map(part.pins) } });
  }
  return part;
}

function readPartAnew(id: string, cursor: Cursor, library: Library): DraftPart | undefined {
  const kindCursor = cursor.need("kind", "the kind of the part");
  const kindName = kindCursor?.word();
  if (kindName === undefined) return undefined;
  const kind = library.kinds.get(kindName);
  if (kind === undefined) {
    kindCursor?.refuse("sheet.kind.unknown", "a kind of the library", didYouMean(kindName, library.kinds.keys()));
    return undefined;
  }
  const read = readInstance(cursor, kind);
  if (read === undefined) return undefined;
  const { pins } = read;
  const instance = withModeShares(read.instance, cursor.field("modes"));
  const tabs = new Map<string, string>();
  for (const [pin, tab] of cursor.field("tabs")?.entries() ?? []) {
    const words = tab.word();
    if (!instance.pins.has(pin))
      tab.refuse("sheet.part.tab", "a pin of the part", didYouMean(pin, instance.pins.keys()));
    else if (words !== undefined) tabs.set(pin, words);
  }
  const byHand = new Map<string, string>();
  for (const [mode, felt] of cursor.field("by-hand")?.entries() ?? []) {
    const words = felt.word("what is felt by hand with nothing opened");
    const names = instance.modes.map(({ name }) => name);
    if (!names.includes(mode))
      felt.refuse("sheet.part.mode", "a mode of the kind", didYouMean(mode, names), `"${mode}"`);
    else if (words !== undefined) byHand.set(mode, words);
  }
  const share = cursor.field("share");
  const of = cursor.field("of")?.word();
  const access = cursor.field("access")?.word();
  const points = cursor.field("points")?.yesNo();
  const live = cursor.field("live")?.choice(["never", "clipped"]);
  const shareSource = share === undefined ? (instance.source ?? cursor.source) : cursor.source;
  return {
    id,
    cursor,
    instance,
    says: cursor.field("says")?.word() ?? instance.says,
    ...(of === undefined ? {} : { of }),
    ...(access === undefined ? {} : { access }),
    share: share === undefined ? instance.share : (share.number(0, 100) ?? 0),
    ...(shareSource === undefined ? {} : { shareSource }),
    pins,
    tabs,
    byHand,
    live: live ?? "handheld",
    ...(points === undefined ? {} : { points }),
  };
}

/** A part's line holds ratings and pins side by side: the kind says which is which. */
function readInstance(
  cursor: Cursor,
  kind: Kind,
): { readonly instance: KindInstance; readonly pins: Map<string, string> } | undefined {
  const ratings = new Map<string, RatingText>();
  const others = new Map<string, Cursor>();
  for (const [key, value] of cursor.entries()) {
    if (isPartKey.has(key)) continue;
    if (!kind.asks.has(key)) others.set(key, value);
    else {
      const text = value.word("a rating");
      if (text !== undefined)
        ratings.set(key, { text, line: value.line, ...(value.source === undefined ? {} : { source: value.source }) });
    }
  }
  const instance = cursor.issues.take(instantiate(kind, ratings, cursor.place));
  if (instance === undefined) return undefined;
  const pins = new Map<string, string>();
  for (const [key, value] of others) {
    if (instance.pins.has(key)) {
      const wire = value.word("a wire");
      if (wire !== undefined) pins.set(key, wire);
      continue;
    }
    const known = [...instance.pins.keys(), ...kind.asks.keys(), ...PART_KEYS];
    const expected = `a pin (${[...instance.pins.keys()].join(", ")}) or a rating of a ${kind.id}`;
    value.refuse("sheet.part.word", expected, didYouMean(key, known), `"${key}"`);
  }
  for (const pin of instance.pins.keys()) {
    if (pins.has(pin) || others.has(pin)) continue;
    cursor.refuse("sheet.pin.unwired", `a wire at its pin ${pin}`, "Name the wire that ends there.", `no ${pin}`);
  }
  return { instance, pins };
}

/** `modes: {all open: 40}`: shares of this sheet instead of the kind's own. */
function withModeShares(instance: KindInstance, cursor: Cursor | undefined): KindInstance {
  if (cursor === undefined) return instance;
  const shares = new Map<string, number>();
  const names = instance.modes.map((mode) => mode.name);
  for (const [name, value] of cursor.entries()) {
    const share = value.number(0, 100);
    if (!names.includes(name))
      value.refuse("sheet.part.mode", "a mode of the kind", didYouMean(name, names), `"${name}"`);
    else if (share !== undefined) shares.set(name, share);
  }
  const modes = instance.modes.map((mode) => ({ ...mode, share: shares.get(mode.name) ?? mode.share }));
  return { ...instance, modes };
}

function readPlug(id: string, cursor: Cursor): DraftPlug | undefined {
  cursor.onlyKeys(PLUG_KEYS);
  const of = cursor.need("of", "the part or assembly whose plug it is")?.word();
  const pinSays = new Map(
    cursor
      .field("pin-says")
      ?.entries()
      .map(([pin, says]) => [pin, says.word()] as const) ?? [],
  );
  const pins = new Map<string, DraftPin>();
  for (const [pin, value] of cursor.need("pins", "pins: {1: wire colour}")?.entries() ?? []) {
    const read = readPin(value, pinSays.get(pin));
    if (read !== undefined) pins.set(pin, read);
  }
  const ways = cursor.field("ways")?.number(1, 200) ?? pins.size;
  if (pins.size > ways) cursor.refuse("sheet.plug.ways", `at most ${ways} pins`, undefined, `${pins.size} pins`);
  const clip = cursor.field("clip")?.yesNo() ?? false;
  const never = cursor.field("live")?.choice(["never"]) === "never";
  if (of === undefined) return undefined;
  const access = cursor.field("access")?.word();
  const says = cursor.field("says")?.word();
  const insideSays = cursor.field("inside")?.word();
  return {
    id,
    cursor,
    of,
    ways,
    pinOneSays: cursor.field("pin 1")?.word() ?? "as marked",
    ...(access === undefined ? {} : { access }),
    live: never ? "never" : clip ? "clipped" : "handheld",
    joint: cursor.field("joint")?.word() ?? "plug-pin",
    ...(says === undefined ? {} : { says }),
    ...(insideSays === undefined ? {} : { insideSays }),
    pins,
  };
}

/** `heat-n blue from heat-n-in`: wire, colour (any words), and the name of the same pin's wire on the inside. */
function readPin(cursor: Cursor, says: string | undefined): DraftPin | undefined {
  const text = cursor.word("a wire and its colour");
  if (text === undefined) return undefined;
  const [outside = "", inside, ...more] = text.split(/\s+from\s+/);
  const [wire = "", ...colour] = outside.trim().split(/\s+/);
  if (more.length > 0 || inside?.trim() === "" || /\s/.test(inside?.trim() ?? "")) {
    return cursor.refuse("sheet.plug.pin", "<wire> <colour> from <inside wire>");
  }
  return {
    cursor,
    wire,
    inside: inside?.trim() ?? wire,
    ...(colour.length === 0 ? {} : { colour: colour.join(" ") }),
    ...(says === undefined ? {} : { says }),
  };
}

function readJointRow(id: string, cursor: Cursor): JointRow | undefined {
  cursor.onlyKeys(JOINT_ROW_KEYS);
  const share = cursor.need("share", "one share over all its joints")?.number(0, 100);
  const at = cursor.need("at", "a list of parts, plugs or pins")?.items() ?? [];
  if (share === undefined) return undefined;
  return { id, cursor, share, at, ...(cursor.source === undefined ? {} : { source: cursor.source }) };
}
