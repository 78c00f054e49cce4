import type { Checked } from "../issue/index.ts";
import { type Cursor, readWith } from "../part/index.ts";
import { PARTY_KEYS, readBank, readParty } from "./read-party.ts";
import { readTrading } from "./read-trading.ts";
import type { Letterhead, Shop, WorkMinutes } from "./shop.ts";

export const COST_FORMAT = "faultwright-costs/1";

/** Key in the file → what it is called here. */
const MINUTES = [
  ["ask", "ask"],
  ["look", "look"],
  ["reading", "reading"],
  ["pull connector", "pullConnector"],
  ["free part", "freePart"],
  ["prove dead", "proveDead"],
  ["energise", "energise"],
  ["run step", "runStep"],
  ["clip", "clip"],
  ["change instrument", "changeInstrument"],
  ["change position", "changePosition"],
  ["verify", "verify"],
  ["check", "check"],
  ["operation", "operation"],
  ["wrap up", "wrapUp"],
] as const satisfies readonly (readonly [string, keyof WorkMinutes])[];
export const MINUTE_KEYS = MINUTES.map(([key]) => key);

export const COST_KEYS = [
  "format",
  "says",
  "currency",
  "per hour",
  "call-out",
  "second visit",
  "comeback",
  "wrong part",
  "new machine",
  "service years",
  "live margin",
  "handheld",
  "time stop",
  "van",
  "bag",
  "minutes",
  "trading",
  "letterhead",
] as const;
export const LETTERHEAD_KEYS = [...PARTY_KEYS, "bank", "registration"] as const;
export const HANDHELD = ["off", "on"] as const;
export const MINUTES_MOST = 600;

export const MONEY_MOST = 1e6;

/**
 * A shop's cost file.
 *
 * @param text  YAML (or JSON), `format: faultwright-costs/1`
 * @param id    the file's name without its ending: what a job calls it
 * @returns     the shop, or every issue of the file at once
 */
export function readShop(text: string, id: string, file?: string): Checked<Shop> {
  return readWith(text, file, (root) => readRoot(root, id));
}

function readRoot(root: Cursor, id: string): Shop | undefined {
  if (!root.isMap) return root.refuse("costs.not-map", `a map that begins with format: ${COST_FORMAT}`);
  root.onlyKeys(COST_KEYS);
  const format = root.need("format", `format: ${COST_FORMAT}`);
  if (format !== undefined && format.text() !== COST_FORMAT) format.refuse("costs.format", COST_FORMAT);
  if (root.source === undefined)
    root.refuse("costs.no-source", "source: where these numbers come from", undefined, "no source");

  const money = (key: string, least = 0): number => root.need(key)?.number(least, MONEY_MOST) ?? Number.NaN;
  const minutes = readMinutes(root.need("minutes"));
  const tradingAt = root.field("trading");
  const trading = tradingAt === undefined ? undefined : readTrading(tradingAt, root.field("currency"));
  const letterhead = readLetterhead(root.field("letterhead"));
  const shop: Shop = {
    id,
    says: root.field("says")?.text() ?? id,
    currency: root.need("currency")?.word() ?? "",
    perHour: money("per hour", 1),
    callOut: money("call-out"),
    secondVisit: money("second visit"),
    comeback: money("comeback"),
    wrongPart: money("wrong part"),
    newMachine: money("new machine", 1),
    serviceYears: money("service years", 1),
    liveMargin: money("live margin"),
    handheld: root.field("handheld")?.choice(HANDHELD) === "on",
    timeStopMinutes: money("time stop", 1),
    van: new Set(root.field("van")?.words() ?? []),
    bag: root.field("bag")?.words() ?? [],
    minutes,
    ...(trading === undefined ? {} : { trading }),
    ...(letterhead === undefined ? {} : { letterhead }),
  };
  return shop;
}

function readMinutes(at: Cursor | undefined): WorkMinutes {
  at?.onlyKeys(MINUTE_KEYS);
  const read = (key: string): number => at?.need(key)?.number(0, MINUTES_MOST) ?? Number.NaN;
  return Object.fromEntries(MINUTES.map(([key, name]) => [name, read(key)])) as Record<keyof WorkMinutes, number>;
}

export function readLetterhead(at: Cursor | undefined): Letterhead | undefined {
  if (at === undefined) return undefined;
  const party = readParty(at, LETTERHEAD_KEYS);
  const bank = readBank(at.field("bank"));
  const registration = at.field("registration")?.word();
  if (party === undefined) return undefined;
  return {
    party,
    ...(bank === undefined ? {} : { bank }),
    ...(registration === undefined ? {} : { registration }),
  };
}
