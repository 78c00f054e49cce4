import { parseShown, parseShownBatch, type Quantity, type Shown } from "../meter/index.ts";
import type { Cursor } from "../part/index.ts";
import type { EventBody, MeasuredReading, ReadingSet } from "./job.ts";

/** Key under which a value is written → what it measures. `shows` is ohms with the plug out, or the cause's own unit. */
export const VALUE_KEYS: ReadonlyMap<string, Quantity> = new Map<string, Quantity>([
  ["ohms", "ohms"],
  ["volts", "volts"],
  ["volts dc", "volts dc"],
  ["amps", "amps"],
  ["watts", "watts"],
  ["leakage", "leakage amps"],
  ["insulation", "insulation ohms"],
  ["farads", "farads"],
  ["hertz", "hertz"],
]);

/** Measured at the plug as a whole: no two points. */
const AT_THE_PLUG = new Set<Quantity>(["watts", "leakage amps", "amps"]);

export const SET_KEYS = [
  "state",
  "in",
  "condition",
  "command",
  "meter",
  "leads",
  "hands",
  "pulled",
  "freed",
  "hot",
] as const;
export const POINT_KEYS = ["from", "to", "joined", "at", "pairs", "cause", "what", "shows"] as const;
export const COUNTED_KEYS = ["from", "to", "good", "of"] as const;
export const READING_STATES = ["plug out", "live", "bench"] as const;

/**
 * One or several readings taken with one set-up:
 * `{from: X3.1, to: X3.3, shows: 26.4}` · `{at: X3, shows: {1-2: 26.4, 1-3: OL}}` · `{at: X3, pairs: [1-2, 1-3], shows: 26.4 OL}` ·
 * `{watts: 1250 W, in: heat}` · `{cause: lint, what: load rise, shows: 12}`.
 */
export function readMeasured(at: Cursor): EventBody | undefined {
  at.onlyKeys([...POINT_KEYS, ...VALUE_KEYS.keys(), ...SET_KEYS]);
  if (!at.isMap)
    return at.refuse("job.measured", "two points and what the meter showed: {from: X3.1, to: X3.3, shows: 26.4}");
  const set = readSet(at);
  const value = valueField(at, set);
  if (value === undefined) return undefined;
  const readings =
    at.field("cause") !== undefined
      ? ofCause(at, value)
      : at.field("at") !== undefined
        ? atPlug(at, value)
        : between(at, value);
  return readings === undefined || readings.length === 0 ? undefined : { kind: "measured", set, readings };
}

/** `{from: door-switch.a, to: door-switch.b, good: 19, of: 20}` */
export function readCounted(at: Cursor): EventBody | undefined {
  at.onlyKeys([...COUNTED_KEYS, ...SET_KEYS]);
  const from = at.need("from", "from: the first point")?.word();
  const to = at.need("to", "to: the second point")?.word();
  const of = at.need("of", "of: how often it was tried")?.number(1, 1e6);
  const good = at.need("good", "good: how often it was good")?.number(0, of ?? 1e6);
  const set = readSet(at);
  if (from === undefined || to === undefined || of === undefined || good === undefined) return undefined;
  if (!Number.isInteger(good) || !Number.isInteger(of)) return at.refuse("job.count", "whole numbers for good and of");
  return { kind: "counted", set, from, to, good, of };
}

interface Value {
  readonly at: Cursor;
  readonly quantity: Quantity;
}

function valueField(at: Cursor, set: ReadingSet): Value | undefined {
  const found: Value[] = [];
  for (const [key, quantity] of VALUE_KEYS) {
    const field = at.field(key);
    if (field !== undefined) found.push({ at: field, quantity });
  }
  const shows = at.field("shows");
  if (shows !== undefined) found.push({ at: shows, quantity: at.field("cause") === undefined ? "ohms" : "number" });
  const [first, second] = found;
  if (first === undefined)
    return at.refuse("job.no-value", `shows: what the meter showed (or ${[...VALUE_KEYS.keys()].join(", ")})`);
  if (second !== undefined) return second.at.refuse("job.two-values", "one quantity an event");
  if (set.state.kind === "live" && (first.quantity === "ohms" || first.quantity === "insulation ohms")) {
    return first.at.refuse(
      "job.ohms-live",
      "ohms with the plug out",
      "Live readings are volts:, watts:, amps: or leakage:.",
    );
  }
  if (
    set.state.kind === "plug out" &&
    ["volts", "volts dc", "watts", "amps", "leakage amps"].includes(first.quantity)
  ) {
    return first.at.refuse(
      "job.live-dead",
      `in: the step in which ${first.quantity} was read`,
      "With the plug out there is nothing to read.",
    );
  }
  return first;
}

function between(at: Cursor, value: Value): readonly MeasuredReading[] | undefined {
  const joinedWith = at.field("joined")?.words("points joined to the first") ?? [];
  const shown = readShown(value.at, value.quantity);
  const from = at.field("from")?.word("a point");
  const to = at.field("to")?.word("a point");
  if (from === undefined && to === undefined && AT_THE_PLUG.has(value.quantity)) {
    return shown === undefined ? undefined : [{ quantity: value.quantity, joinedWith, shown }];
  }
  if (from === undefined || to === undefined) {
    return at.refuse("job.points", "from: and to:, the two points", undefined, "no two points");
  }
  return shown === undefined ? undefined : [{ quantity: value.quantity, from, to, joinedWith, shown }];
}

function atPlug(at: Cursor, value: Value): readonly MeasuredReading[] | undefined {
  const plug = at.need("at")?.word("a connector");
  if (plug === undefined) return undefined;
  const pairs = at.field("pairs");
  if (pairs !== undefined) return inOrder(plug, pairs, value);
  return value.at.entries("readings by pair of pins: {1-2: 26.4, 1-3: OL}").flatMap(([pair, field]) => {
    const shown = readShown(field, value.quantity);
    return shown === undefined ? [] : readingOf(plug, pair, shown, value.quantity, field);
  });
}

/** Readings typed in one go, in the order of the pairs. */
function inOrder(plug: string, pairs: Cursor, value: Value): readonly MeasuredReading[] {
  const names = pairs.words("pairs of pins: [1-2, 1-3]").flatMap((word) => word.trim().split(/[\s,]+/));
  const typed = value.at.words("what was shown, in the order of the pairs").join(" ");
  const shows = value.at.issues.take(parseShownBatch(typed, value.quantity, value.at.place));
  if (shows === undefined) return [];
  if (names.length !== shows.length) {
    const expected = `${names.length} readings for ${names.length} pairs`;
    value.at.refuse("job.pairs", expected, undefined, `${shows.length} readings`);
    return [];
  }
  return shows.flatMap((shown, index) => readingOf(plug, names[index] ?? "", shown, value.quantity, pairs));
}

function readingOf(
  plug: string,
  pair: string,
  shown: Shown,
  quantity: Quantity,
  place: Cursor,
): readonly MeasuredReading[] {
  const match = /^([^\s–-]+)\s*[–-]\s*([^\s–-]+)$/.exec(pair);
  if (match === null) {
    place.refuse("job.pair", "two pins: 1-3", undefined, `"${pair}"`);
    return [];
  }
  return [{ quantity, from: `${plug}.${match[1]}`, to: `${plug}.${match[2]}`, joinedWith: [], shown }];
}

function ofCause(at: Cursor, value: Value): readonly MeasuredReading[] | undefined {
  const cause = at.need("cause")?.word();
  const id = at.need("what", "what: the measurement")?.word();
  const shown = readShown(value.at, value.quantity);
  if (cause === undefined || id === undefined || shown === undefined) return undefined;
  return [{ quantity: value.quantity, joinedWith: [], measure: { cause, id }, shown }];
}

function readShown(at: Cursor, quantity: Quantity): Shown | undefined {
  const text = at.word("what the meter showed: 26.4, OL, or a word");
  return text === undefined ? undefined : at.issues.take(parseShown(text, quantity, at.place));
}

function readSet(at: Cursor): ReadingSet {
  const step = at.field("in")?.word("a step of the programme");
  const condition = at.field("condition")?.word("a condition");
  const command = at.field("command")?.word("an output");
  const hinted = step !== undefined || condition !== undefined || command !== undefined ? "live" : "plug out";
  const kind = at.field("state")?.choice(READING_STATES) ?? hinted;
  if (kind !== "live" && hinted === "live") {
    at.field("state")?.refuse("job.state", "state: live where a step, condition or output is named");
  }
  const meter = at.field("meter")?.word("a meter");
  const degrees = at.field("hot")?.number(-30, 400);
  return {
    state:
      kind === "live"
        ? {
            kind,
            ...(step === undefined ? {} : { step }),
            ...(condition === undefined ? {} : { condition }),
            ...(command === undefined ? {} : { command }),
          }
        : { kind },
    pulled: at.field("pulled")?.words("connectors") ?? [],
    freed: at.field("freed")?.words("parts") ?? [],
    hands: readHands(at.field("hands")),
    leads: readLeads(at.field("leads")),
    ...(meter === undefined ? {} : { meter }),
    ...(degrees === undefined ? {} : { degrees }),
  };
}

function readHands(at: Cursor | undefined): ReadonlyMap<string, number> {
  const hands = new Map<string, number>();
  for (const [input, value] of at?.entries("inputs: {door: 1}") ?? []) {
    const number = value.number();
    if (number !== undefined) hands.set(input, number);
  }
  return hands;
}

function readLeads(at: Cursor | undefined): ReadingSet["leads"] {
  const text = at?.text("nulled | not nulled | ohms of the leads");
  if (at === undefined || text === undefined || text === "not nulled") return "not nulled";
  if (text === "nulled") return "nulled";
  const ohms = at.number(0, 100);
  return ohms === undefined ? "not nulled" : { ohms };
}
