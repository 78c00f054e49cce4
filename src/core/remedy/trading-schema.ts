import { ROUNDINGS, VAT_CATEGORIES } from "../money/index.ts";
import { CHANCE, choice, closed, listOf, numberFrom, PAIR, type Schema, says, TEXT, WORDS } from "../part/index.ts";
import { BAND_KEYS, GUARANTEE_KEYS, PRICES, TRADING_KEYS, USED_KEYS, VAT_KEYS } from "./read-trading.ts";

const money = (description: string): Schema => says(description, numberFrom(0, 1e6));
const MONTHS = numberFrom(0, 120);

/** The JSON Schema of what a shop agrees with its customers. */
export function tradingSchema(): Schema {
  return closed(
    TRADING_KEYS,
    {
      country: says("two letters, ISO 3166-1", TEXT),
      diagnosis: money("for finding the fault where it is not mended"),
      deposit: says("share of a part's price asked before it is ordered", CHANCE),
      "order days": says("working days until an ordered part is there: 2..5", TEXT),
      guarantee: says("months", closed(GUARANTEE_KEYS, { new: MONTHS, used: MONTHS }, ["new"])),
      bands: says(
        "work at fixed prices, the shortest first",
        listOf(
          closed(BAND_KEYS, { to: numberFrom(1, 600), price: money("for work up to so many minutes") }, BAND_KEYS),
        ),
      ),
      used: says(
        "used and bench-tested parts",
        closed(
          USED_KEYS,
          {
            parts: says("kinds, and assemblies by id", WORDS),
            price: says("share of a new one's", CHANCE),
            odds: says("cures / fails within twelve months", PAIR),
          },
          USED_KEYS,
        ),
      ),
      vat: vatSchema(),
      prices: choice(PRICES),
      rounding: says("of half a penny", choice(ROUNDINGS)),
      step: says("smallest amount that can be paid, in the smallest unit", numberFrom(1, 1000)),
      "due days": says("until a bill is due", numberFrom(0, 365)),
    },
    ["vat"],
  );
}

/** `19`, or a map with its category. */
export function vatSchema(): Schema {
  return {
    anyOf: [
      numberFrom(0, 100),
      closed(
        VAT_KEYS,
        {
          category: says(
            "S rated, Z zero, E exempt, AE the buyer pays it, O outside its scope",
            choice(VAT_CATEGORIES),
          ),
          percent: numberFrom(0, 100),
          reason: says("why there is none", TEXT),
        },
        ["category"],
      ),
    ],
  };
}
