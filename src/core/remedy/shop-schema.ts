import { choice, closed, numberFrom, type Schema, says, TEXT, WORDS } from "../part/index.ts";
import { bankSchema, partySchemas } from "./party-schema.ts";
import {
  COST_FORMAT,
  COST_KEYS,
  HANDHELD,
  LETTERHEAD_KEYS,
  MINUTE_KEYS,
  MINUTES_MOST,
  MONEY_MOST,
} from "./read-shop.ts";
import { tradingSchema } from "./trading-schema.ts";

const money = (description: string, least = 0): Schema => says(description, numberFrom(least, MONEY_MOST));
const OPTIONAL: ReadonlySet<string> = new Set(["says", "handheld", "van", "bag", "trading", "letterhead"]);
const minutes = numberFrom(0, MINUTES_MOST);

/** The JSON Schema of a shop's cost file, from the key lists of its reader. */
export function shopSchema(): Schema {
  return closed(
    COST_KEYS,
    {
      format: says("the form and its version", { const: COST_FORMAT }),
      says: says("the shop", TEXT),
      currency: says("its code; amounts are in it", TEXT),
      "per hour": money("of work", 1),
      "call-out": money("of coming at all"),
      "second visit": money("of coming again with a part"),
      comeback: money("of a repair that did not hold"),
      "wrong part": money("of a part fitted for nothing, beside its price and the time"),
      "new machine": money("price of a comparable one", 1),
      "service years": money("how long such a machine serves", 1),
      "live margin": money("what a live reading must be worth more than a dead one"),
      handheld: says("live readings with probes in the hand", choice(HANDHELD)),
      "time stop": money("minutes after which to stop and think", 1),
      van: says("kinds of parts carried", WORDS),
      bag: says("meters carried, by their files' names", WORDS),
      minutes: says(
        "minutes of each act",
        closed<string>(MINUTE_KEYS, Object.fromEntries(MINUTE_KEYS.map((key) => [key, minutes])), MINUTE_KEYS),
      ),
      trading: says("what it agrees with its customers", tradingSchema()),
      letterhead: says(
        "who it is, on its papers",
        closed(LETTERHEAD_KEYS, { ...partySchemas(), bank: bankSchema(), registration: TEXT }, ["name"]),
      ),
    },
    [...COST_KEYS.filter((key) => !OPTIONAL.has(key)), "source"],
  );
}
