import { type Cursor, didYouMean, optional } from "../part/index.ts";
import { parseAmount } from "../quantity/index.ts";
import { METERED, PROTECTION_CLASSES, SAFETY_TESTS, unitOfTest } from "../safety/index.ts";
import {
  ASKED_OF_CUSTOMER,
  CLOSE_OUT_CHECKS,
  type CloseOutCheck,
  type ClosingEvent,
  NOTICE_ENDS,
  type TestTaken,
} from "./closing-event.ts";
import { readLogged } from "./read-logged.ts";

export const OPERATED_KEYS = ["on", "good", "of", "minutes"] as const;
export const HEATED_KEYS = ["litres", "from", "to", "time", "watts", "rated", "volts", "load", "tub"] as const;
export const LOADED_KEYS = ["on", "drop", "ohms", "amperes"] as const;
export const SAFETY_KEYS = [
  "rules",
  "class",
  "cord",
  "section",
  "heating",
  "portable",
  "bare metal",
  "surge suppressors",
  "instrument",
  "calibrated",
] as const;
export const TESTED_KEYS = ["test", "found", "shows", "cannot", "meter", "instrument", "calibrated"] as const;
export const FOUND_WORDS = ["pass", "fail"] as const;
export const UNPROVED_KEYS = ["what", "why", "asked", "days"] as const;
export const LEFT_KEYS = ["waiting for", "made safe"] as const;
export const NOTICE_KEYS = ["found", "done", "ended", "to", "signature"] as const;

type Reader = (at: Cursor) => ClosingEvent | undefined;

/** Kinds of what is noted between a repair and the door → how each is read. */
export const CLOSING_READERS = {
  operated: readOperated,
  heated: readHeated,
  loaded: readLoaded,
  logged: readLogged,
  safety: readSafety,
  tested: readTested,
  ticked: readTicked,
  checked: readChecked,
  unproved: readUnproved,
  left: readLeft,
  notice: readNotice,
} satisfies Readonly<Record<ClosingEvent["kind"], Reader>>;

function readOperated(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(OPERATED_KEYS);
  const on = at.need("on", "on: the part that was operated")?.word();
  const of = at.need("of", "of: how often it was tried")?.number(1, 1e6);
  const good = at.need("good", "good: how often it was good")?.number(0, of ?? 1e6);
  const minutesEach = at.field("minutes")?.number(0, 1000);
  if (on === undefined || good === undefined || of === undefined) return undefined;
  if (!Number.isInteger(good) || !Number.isInteger(of)) return at.refuse("job.count", "whole numbers for good and of");
  return { kind: "operated", on, good, of, ...optional("minutesEach", minutesEach) };
}

function readHeated(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(HEATED_KEYS);
  const litres = at.need("litres", "litres: water in the machine")?.amount({ unit: "L", positive: true });
  const from = at.need("from", "from: degrees at the start")?.amount({ unit: "Cel" });
  const to = at.need("to", "to: degrees at the end")?.amount({ unit: "Cel" });
  const seconds = at.need("time", "time: 9.5 min ±5 s")?.amount({ unit: "s", positive: true });
  const watts = at.need("watts", "watts: of the heater by its plate")?.amount({ unit: "W", positive: true });
  const rated = at.field("rated")?.amount({ unit: "V", positive: true });
  const volts = at.field("volts")?.amount({ unit: "V", positive: true });
  const load = at.field("load")?.amount({ unit: "kg", positive: true });
  const tub = at.field("tub")?.amount({ unit: "kg", positive: true });
  if (litres === undefined || from === undefined || to === undefined) return undefined;
  if (seconds === undefined || watts === undefined) return undefined;
  if (to.nominal <= from.nominal) {
    const found = `${from.nominal} to ${to.nominal} °C`;
    return at.refuse("prove.no-rise", "an end that is warmer than the start", undefined, found);
  }
  const heat = { litres, from, to, seconds, ratedWatts: watts.nominal, ratedVolts: rated?.nominal ?? 230 };
  const more = {
    ...optional("mainsVolts", volts),
    ...optional("loadKilograms", load),
    ...optional("tubKilograms", tub),
  };
  return { kind: "heated", heat: { ...heat, ...more } };
}

function readLoaded(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(LOADED_KEYS);
  const on = at.need("on", "on: the contact or its part")?.word();
  const drop = at.field("drop")?.amount({ unit: "V", positive: true });
  const ohms = at.field("ohms")?.amount({ unit: "Ohm" });
  const amperes = at.need("amperes", "amperes: of the load")?.amount({ unit: "A", positive: true });
  const reading = drop ?? ohms;
  if ((drop === undefined) === (ohms === undefined)) return at.refuse("prove.contact", "either drop: or ohms:");
  if (on === undefined || reading === undefined || amperes === undefined) return undefined;
  return { kind: "loaded", on, by: drop === undefined ? "ohms" : "drop", reading, amperes };
}

function readSafety(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(SAFETY_KEYS);
  const rules = at.need("rules", "rules: a rule set by its file's name")?.word();
  const protection = at.need("class", "class: I | II | III")?.choice(PROTECTION_CLASSES);
  const flag = (key: (typeof SAFETY_KEYS)[number]): boolean => at.field(key)?.yesNo() ?? false;
  const flags = { isPortable: flag("portable"), hasBareMetal: flag("bare metal") };
  const hasSurgeSuppressors = flag("surge suppressors");
  const size = {
    ...optional("cordMetres", at.field("cord")?.number(0, 1000)),
    ...optional("cordSection", at.field("section")?.number(0.1, 1000)),
    ...optional("heatingWatts", at.field("heating")?.amount({ unit: "W" })?.nominal),
  };
  if (rules === undefined || protection === undefined) return undefined;
  return { kind: "safety", rules, protection, ...size, ...flags, hasSurgeSuppressors, ...instrumentOf(at) };
}

function readTested(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(TESTED_KEYS);
  const test = at.need("test", `test: ${SAFETY_TESTS.join(" | ")}`)?.choice(SAFETY_TESTS);
  if (test === undefined) return undefined;
  const result = readResult(at, test);
  const meter = at.field("meter")?.word();
  return result === undefined
    ? undefined
    : { kind: "tested", test, result, ...optional("meter", meter), ...instrumentOf(at) };
}

function readResult(at: Cursor, test: TestTaken["test"]): TestTaken["result"] | undefined {
  const metered = METERED.find((one) => one === test);
  const cannot = at.field("cannot");
  if (metered === undefined) {
    const found = at.need("found", "found: pass | fail")?.choice(FOUND_WORDS);
    return found === undefined ? undefined : { is: "found", found };
  }
  if (cannot !== undefined) {
    const why = cannot.word("why it cannot be made");
    return why === undefined ? undefined : { is: "cannot", why };
  }
  const shows = at.need("shows", "shows: what the meter showed, as 0.12 ±0.01 or > 20 MΩ");
  const text = shows?.word("what the meter showed, as 0.12 ±0.01 or > 20 MΩ");
  if (shows === undefined || text === undefined) return undefined;
  const [, above, rest = text] = /^\s*(>)\s*(.*)$/.exec(text) ?? [];
  const amount = shows.issues.take(parseAmount(rest, { unit: unitOfTest(metered), ...shows.place }));
  if (amount === undefined) return undefined;
  // A current below zero would be under every limit.
  if (amount.nominal < 0) return shows.refuse("safety.below-zero", "zero or more");
  return { is: "shown", amount, isAbove: above !== undefined };
}

function instrumentOf(at: Cursor): { readonly instrument?: string; readonly calibrated?: string } {
  return {
    ...optional("instrument", at.field("instrument")?.word()),
    ...optional("calibrated", at.field("calibrated")?.word("the date of its last calibration")),
  };
}

function readTicked(at: Cursor): ClosingEvent | undefined {
  const items = at.words("things that are back in their place, or all");
  return items.length === 0
    ? at.refuse("job.empty-event", "things that are back in their place, or all")
    : { kind: "ticked", items };
}

function readChecked(at: Cursor): ClosingEvent | undefined {
  const checks = new Map<CloseOutCheck, boolean>();
  for (const [key, value] of at.entries(`${CLOSE_OUT_CHECKS[0]}: yes`)) {
    const check = CLOSE_OUT_CHECKS.find((one) => one === key);
    const found = value.yesNo();
    if (check === undefined) {
      value.refuse("job.check", CLOSE_OUT_CHECKS.join(" | "), didYouMean(key, CLOSE_OUT_CHECKS), key);
    } else if (found !== undefined) checks.set(check, found);
  }
  return checks.size === 0 ? undefined : { kind: "checked", checks };
}

function readUnproved(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(UNPROVED_KEYS);
  const what = at.need("what", "what: what was not proved on site")?.word();
  const why = at.need("why", "why: why not")?.word();
  const asked = at.field("asked")?.choice(ASKED_OF_CUSTOMER);
  const days = at.field("days")?.number(1, 365);
  if (what === undefined || why === undefined) return undefined;
  return { kind: "unproved", what, why, ...optional("asked", asked), ...optional("days", days) };
}

function readLeft(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(LEFT_KEYS);
  const waitingFor = at.need("waiting for", "waiting for: a part, an answer")?.word();
  const madeSafe = at.need("made safe", "made safe: what was done so that nobody is hurt")?.words() ?? [];
  if (waitingFor === undefined) return undefined;
  if (madeSafe.length === 0)
    return at.refuse("job.made-safe", "made safe: [plug out, water shut off, label on the plug]");
  return { kind: "left", waitingFor, madeSafe };
}

function readNotice(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(NOTICE_KEYS);
  const found = at.need("found", "found: what is dangerous")?.words() ?? [];
  const done = at.need("done", "done: what was done about it")?.words() ?? [];
  const ended = at.need("ended", `ended: ${NOTICE_ENDS.join(" | ")}`)?.choice(NOTICE_ENDS);
  const to = at.field("to")?.word();
  const signature = at.field("signature")?.word();
  if (found.length === 0 || ended === undefined) return undefined;
  return { kind: "notice", found, done, ended, ...optional("to", to), ...optional("signature", signature) };
}
