import { type Cursor, didYouMean } from "../part/index.ts";
import type { EventBody } from "./job.ts";
import { CLOSING_READERS } from "./read-closing.ts";
import { readCounted, readMeasured } from "./read-measured.ts";
import { MONEY_READERS } from "./read-money.ts";
import { VISIT_READERS } from "./read-visit.ts";

export const FRAME_KEYS = ["at", "by"] as const;
const FRAME: ReadonlySet<string> = new Set([...FRAME_KEYS, "source"]);

export const LOOKED_KEYS = ["at", "found", "mode"] as const;
export const FOUND = ["bad", "good"] as const;
export const ISOLATED_KEYS = ["tester"] as const;
export const ENERGISED_KEYS = ["through"] as const;
export const CANNOT_KEYS = ["step", "why"] as const;
export const DID_KEYS = ["remedy", "on", "worked", "price"] as const;

type Reader = (at: Cursor) => EventBody | undefined;

/** Kind of event → how its body is read. A kind that is not here is kept as `unknown`. */
const EVENT_READERS = {
  told: (at) => readSigns("told", at),
  heard: (at) => readSigns("heard", at),
  seen: (at) => readSigns("seen", at),
  answered: readAnswered,
  looked: readLooked,
  opened: (at) => readAccess("opened", at),
  closed: (at) => readAccess("closed", at),
  unplugged: readUnplugged,
  isolated: readIsolated,
  energised: readEnergised,
  measured: readMeasured,
  counted: readCounted,
  cannot: readCannot,
  did: readDid,
  why: readWhy,
  withdraws: readWithdraws,
  note: readNote,
  ...MONEY_READERS,
  ...CLOSING_READERS,
  ...VISIT_READERS,
} satisfies Readonly<Record<string, Reader>>;
/** Kinds of events, as written. */
export const EVENT_KINDS = Object.keys(EVENT_READERS) as readonly (keyof typeof EVENT_READERS)[];
const READERS: ReadonlyMap<string, Reader> = new Map(Object.entries(EVENT_READERS));

/** The body of one event: the one key that is not `at` or `by`, or a single word such as `isolated`. */
export function readEvent(item: Cursor): EventBody | undefined {
  if (item.isText) {
    const word = item.word("an event") ?? "";
    if (isBareKind(word)) return { kind: word };
    return item.refuse("job.event", "an event with its body: told: {heat: cold}", didYouMean(word, READERS.keys()));
  }
  const bodies = item.entries("an event: one kind with its body").filter(([key]) => !FRAME.has(key));
  const [first, second] = bodies;
  if (first === undefined) return item.refuse("job.event", "an event: one kind with its body");
  if (second !== undefined) {
    return second[1].refuse(
      "job.two-events",
      "one kind an event; begin the next with a dash",
      undefined,
      `also ${second[0]}`,
    );
  }
  const [kind, body] = first;
  const reader = READERS.get(kind);
  if (reader !== undefined) return reader(body);
  body.warn(
    "job.unknown-event",
    [...READERS.keys()].join(" | "),
    didYouMean(kind, READERS.keys()) ?? "It is kept, and moves nothing.",
    `an event ${kind}`,
  );
  return { kind: "unknown", name: kind, text: body.isText ? (body.text() ?? "") : body.found };
}

/** Minutes of the day of a time written as `14:20`. */
export function clockMinutes(at: Cursor): number | undefined {
  const match = at.isText ? /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(at.text() ?? "") : null;
  return match === null ? undefined : Number(match[1]) * 60 + Number(match[2]);
}

function readSigns(kind: "told" | "heard" | "seen", at: Cursor): EventBody | undefined {
  const answers = at.entries("signs with their answers: {heat: cold}").flatMap(([sign, value]) => {
    const answer = value.word("an answer");
    return answer === undefined ? [] : [{ sign, answer }];
  });
  return answers.length === 0 ? at.refuse("job.empty-event", "at least one sign with its answer") : { kind, answers };
}

function readAnswered(at: Cursor): EventBody | undefined {
  const slots = at.entries("slots with their variants: {stages: two}").flatMap(([slot, value]) => {
    const variant = value.word("a variant");
    return variant === undefined ? [] : [{ slot, variant }];
  });
  return slots.length === 0
    ? at.refuse("job.empty-event", "at least one slot with its variant")
    : { kind: "answered", slots };
}

function readLooked(at: Cursor): EventBody | undefined {
  at.onlyKeys(LOOKED_KEYS);
  const where = at.need("at", "at: the part or cause looked at")?.word();
  const found = at.need("found", "found: bad | good")?.choice(FOUND);
  const mode = at.field("mode")?.word();
  if (where === undefined || found === undefined) return undefined;
  return { kind: "looked", at: where, found, ...(mode === undefined ? {} : { mode }) };
}

function readAccess(kind: "opened" | "closed", at: Cursor): EventBody | undefined {
  const access = at.words("a cover, or a list of covers");
  return access.length === 0 ? at.refuse("job.empty-event", "a cover: back") : { kind, access };
}

/** Kinds that say all by their name. */
const BARE_KINDS = ["unplugged", "isolated", "energised"] as const;

function isBareKind(word: string): word is (typeof BARE_KINDS)[number] {
  return BARE_KINDS.some((kind) => kind === word);
}

function readUnplugged(at: Cursor): EventBody {
  if (at.isText) at.text();
  else at.onlyKeys([]);
  return { kind: "unplugged" };
}

function readIsolated(at: Cursor): EventBody {
  if (at.isText) {
    const word = at.text() ?? "";
    return word === "" || word === "yes" ? { kind: "isolated" } : { kind: "isolated", tester: word };
  }
  at.onlyKeys(ISOLATED_KEYS);
  const tester = at.field("tester")?.word();
  return { kind: "isolated", ...(tester === undefined ? {} : { tester }) };
}

function readEnergised(at: Cursor): EventBody {
  if (at.isText) {
    const word = at.text() ?? "";
    return word === "" || word === "yes" ? { kind: "energised" } : { kind: "energised", through: word };
  }
  at.onlyKeys(ENERGISED_KEYS);
  const through = at.field("through")?.word();
  return { kind: "energised", ...(through === undefined ? {} : { through }) };
}

function readCannot(at: Cursor): EventBody | undefined {
  if (at.isText) {
    const step = at.word("a step's id");
    return step === undefined ? undefined : { kind: "cannot", step };
  }
  at.onlyKeys(CANNOT_KEYS);
  const step = at.need("step", "step: a step's id")?.word();
  const why = at.field("why")?.text();
  return step === undefined ? undefined : { kind: "cannot", step, ...(why === undefined ? {} : { why }) };
}

function readDid(at: Cursor): EventBody | undefined {
  at.onlyKeys(DID_KEYS);
  const remedy = at.need("remedy", "remedy: what was done")?.word();
  const on = at.need("on", "on: the part or cause it was done to")?.word();
  const worked = at.field("worked")?.yesNo();
  const price = at.field("price")?.number(0, 1e6);
  if (remedy === undefined || on === undefined) return undefined;
  return {
    kind: "did",
    remedy,
    on,
    ...(worked === undefined ? {} : { worked }),
    ...(price === undefined ? {} : { price }),
  };
}

function readWhy(at: Cursor): EventBody | undefined {
  const [first, second] = at.entries("a protector with its reason: {one-shot: lint}");
  if (second !== undefined) return second[1].refuse("job.two-events", "one protector an event");
  const reason = first?.[1].word("a reason");
  return first === undefined || reason === undefined ? undefined : { kind: "why", protector: first[0], reason };
}

function readWithdraws(at: Cursor): EventBody | undefined {
  const place = at.isMap ? at.need("event", "event: its number") : at;
  const text = place?.word("the number of an event: 3 or e3");
  if (place === undefined || text === undefined) return undefined;
  if (!/^e?[1-9]\d*$/.test(text)) return place.refuse("job.withdraws", "the number of an event: 3 or e3");
  return { kind: "withdraws", event: text.startsWith("e") ? text : `e${text}` };
}

function readNote(at: Cursor): EventBody | undefined {
  const text = at.text("a note");
  return text === undefined ? undefined : { kind: "note", text };
}
