import { parseAmount } from "../quantity/index.ts";
import type { Cursor } from "./cursor.ts";
import type { DoesRule, ModeRule } from "./kind.ts";
import { didYouMean } from "./nearest.ts";
import { matcherOf } from "./pattern.ts";

export const MODE_KEYS = ["share", "does", "now-and-then", "victim", "looks", "seen"] as const;
export const KIND_LOOK_KEYS = ["shows", "seen"] as const;

/** What the ways of failing may refer to. */
export interface KindNames {
  readonly elements: readonly string[];
  /** Pins and inner points. */
  readonly points: ReadonlySet<string>;
  readonly states: ReadonlySet<string>;
  readonly knobs: ReadonlySet<string>;
}

/**
 * The ways a kind fails, with their looks.
 *
 * A template's share is split evenly among the modes it made; a mode that acts on nothing (none of its repeated elements
 * is there) is left out, and the others share its part, so that shares always make 100.
 */
export function readModes(root: Cursor, names: KindNames): readonly ModeRule[] {
  const modes: ModeRule[] = [];
  const at = root.field("modes");
  for (const [name, mode] of at?.entries() ?? []) {
    mode.onlyKeys(MODE_KEYS);
    const copies = at?.tree.is === "map" ? (at.tree.entries.get(name)?.copies ?? 1) : 1;
    const share = mode.need("share", "share: per cent of this part's failures")?.number(0, 100);
    const does = mode.need("does", "does: what it does to the part");
    const look = readLook(mode.field("looks"), mode.field("seen"));
    modes.push({
      name,
      share: (share ?? 0) / copies,
      does: does === undefined ? [] : readDoes(does, names),
      nowAndThen: mode.field("now-and-then")?.chance() ?? 0,
      victim: mode.field("victim")?.yesNo() ?? false,
      ...look,
      ...(mode.source === undefined ? {} : { source: mode.source }),
    });
  }
  const acting = addLooks(modes, root.field("looks")).filter((mode) => mode.does.length > 0);
  const total = acting.reduce((sum, mode) => sum + mode.share, 0);
  return total > 0 ? acting.map((mode) => ({ ...mode, share: (100 * mode.share) / total })) : acting;
}

type Look = Pick<ModeRule, "looks" | "seen">;

function readLook(looks: Cursor | undefined, seen: Cursor | undefined): Look {
  const text = looks?.word("what it looks like when bad");
  const pair = seen?.chancePair("chance that it is seen when bad, and when good, as .9/.05");
  return {
    ...(text === undefined ? {} : { looks: text }),
    ...(pair === undefined ? {} : { seen: { hit: pair[0], falseAlarm: pair[1] } }),
  };
}

/** `looks:` of the kind: mode name (or `contact*`) → text, or `{shows, seen}`. */
function addLooks(modes: readonly ModeRule[], at: Cursor | undefined): readonly ModeRule[] {
  let all = modes;
  for (const [pattern, entry] of at?.entries() ?? []) {
    if (entry.isMap) entry.onlyKeys(KIND_LOOK_KEYS);
    const look = entry.isMap
      ? readLook(entry.need("shows", "shows: what it looks like when bad"), entry.field("seen"))
      : readLook(entry, undefined);
    const matches = matcherOf(pattern);
    all = all.map((mode) => (matches(mode.name) ? { ...mode, ...look } : mode));
  }
  return all;
}

function readDoes(at: Cursor, names: KindNames): readonly DoesRule[] {
  if (at.isText) {
    const rule = readEffect(at, names.elements);
    return rule === undefined ? [] : [rule];
  }
  const rules: (DoesRule | undefined)[] = [];
  for (const [key, entry] of at.entries("open, closed, or a map of elements")) {
    switch (key) {
      case "ohms":
        if (at.field("leak") === undefined) entry.refuse("part.kind.does", "ohms beside leak");
        break;
      case "to":
        if (at.field("leak") === undefined && at.field("set") === undefined) {
          entry.refuse("part.kind.does", "to beside leak or set");
        }
        break;
      case "leak":
        rules.push(readLeakBetween(at, entry, names));
        break;
      case "stuck":
        for (const item of entry.items()) rules.push(readStuck(item, names));
        break;
      case "set":
        rules.push(...readSet(at, entry, names));
        break;
      default: {
        const matches = matcherOf(key);
        const targets = names.elements.filter(matches);
        if (targets.length > 0) {
          rules.push(readEffect(entry, targets));
        } else if (!key.includes("*")) {
          const known = [...names.elements, "leak", "stuck", "set"];
          entry.refuse("part.kind.does", "an element of this kind", didYouMean(key, known), `"${key}"`);
        }
      }
    }
  }
  return rules.filter((rule) => rule !== undefined);
}

/** `open` · `closed` · `+ 0R3 5R` · `x 0.5 2` · `beside 10R 1k` · `leak 1k 100k` */
function readEffect(at: Cursor, targets: readonly string[]): DoesRule | undefined {
  const expected = 'open | closed | "+ ohms" | "x factors" | "beside ohms" | "leak ohms"';
  const text = at.word(expected);
  if (text === undefined) return undefined;
  if (text === "open" || text === "closed") return { does: text, targets };
  const [word = "", ...amounts] = text.split(/\s+/);
  const does = ({ "+": "series", x: "factor", beside: "parallel", leak: "leak" } as const)[word];
  if (does === undefined || amounts.length === 0) return at.refuse("part.kind.does", expected);
  const values = amounts.flatMap((amount) => readSeverity(at, amount, does === "factor" ? "1" : "Ohm") ?? []);
  if (values.length < amounts.length) return undefined;
  return does === "factor" ? { does, targets, by: values } : { does, targets, ohms: values };
}

function readSeverity(at: Cursor, text: string, unit: "1" | "Ohm"): number | undefined {
  const amount = at.issues.take(parseAmount(text, { ...at.place, unit }));
  if (amount === undefined) return undefined;
  if (amount.spread === "exact" && amount.nominal >= 0) return amount.nominal;
  return at.refuse("part.kind.severity", "plain numbers, not negative", "Write several severities with blanks.");
}

function readLeakBetween(does: Cursor, at: Cursor, names: KindNames): DoesRule | undefined {
  const point = (cursor: Cursor | undefined): string | undefined => {
    const text = cursor?.word("a pin or an inner point");
    if (cursor === undefined || text === undefined) return undefined;
    if (names.points.has(text)) return text;
    return cursor.refuse("part.kind.leak", "a pin or an inner point of this kind", didYouMean(text, names.points));
  };
  const from = at.items().flatMap((item) => point(item) ?? []);
  const to = point(does.need("to", "to: the point it leaks to"));
  const ohms = readSeverities(does.need("ohms", "ohms: one value or several"), "Ohm");
  if (to === undefined || from.length === 0 || ohms.length === 0) return undefined;
  return { does: "leak-between", from, to, ohms };
}

function readSeverities(at: Cursor | undefined, unit: "1" | "Ohm"): readonly number[] {
  return (at?.items() ?? []).flatMap((item) => readSeverity(item, item.word("a number") ?? "", unit) ?? []);
}

function readStuck(at: Cursor, names: KindNames): DoesRule | undefined {
  const state = at.word("a state");
  if (state === undefined) return undefined;
  if (names.states.has(state)) return { does: "stuck", state };
  return at.refuse("part.kind.state", "a state of this kind", didYouMean(state, names.states));
}

/** `set: drag, to: [.4, 1]`, or `set: {drag: [.4, 1]}`. */
function readSet(does: Cursor, at: Cursor, names: KindNames): readonly DoesRule[] {
  const one = (knob: string, where: Cursor, values: Cursor | undefined): DoesRule | undefined => {
    if (!names.knobs.has(knob)) {
      return where.refuse("part.kind.knob", "a knob of this kind", didYouMean(knob, names.knobs), `"${knob}"`);
    }
    const to = readSeverities(values, "1");
    return to.length === 0 ? undefined : { does: "set", knob, to };
  };
  const rules = at.isMap
    ? at.entries().map(([knob, values]) => one(knob, values, values))
    : [one(at.word("a knob") ?? "", at, does.need("to", "to: one value or several"))];
  return rules.filter((rule) => rule !== undefined);
}
