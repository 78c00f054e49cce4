import {
  CURRENCIES,
  type Currency,
  fitsVat,
  isCurrency,
  ROUNDINGS,
  VAT_CATEGORIES,
  type VatRate,
  vatRate,
} from "../money/index.ts";
import { type Cursor, didYouMean } from "../part/index.ts";
import { readCountry } from "./read-party.ts";
import type { Trading } from "./trading.ts";

export const TRADING_KEYS = [
  "country",
  "diagnosis",
  "deposit",
  "order days",
  "guarantee",
  "bands",
  "used",
  "vat",
  "prices",
  "rounding",
  "step",
  "due days",
] as const;
export const GUARANTEE_KEYS = ["new", "used"] as const;
export const BAND_KEYS = ["to", "price"] as const;
export const USED_KEYS = ["parts", "price", "odds"] as const;
export const VAT_KEYS = ["category", "percent", "reason"] as const;
export const PRICES = ["with tax", "without tax"] as const;

const MONEY_MOST = 1e6;
const MONTHS_MOST = 120;

/** What a shop agrees with its customers: the map `trading` of a cost file. */
export function readTrading(at: Cursor, currency: Cursor | undefined): Trading | undefined {
  at.onlyKeys(TRADING_KEYS);
  const country = readCountry(at.field("country"));
  const days = at.field("order days");
  const orderDays = days === undefined ? undefined : readDays(days);
  const guarantee = readGuarantee(at.field("guarantee"));
  const used = readUsed(at.field("used"));
  const vat = readVat(at.need("vat", "vat: 19, or a map with its category"));
  const code = readCurrency(currency);
  const step = at.field("step")?.number(1, 1000) ?? 1;
  if (!Number.isInteger(step)) at.field("step")?.refuse("trading.step", "a whole number of the smallest unit: 5");
  if (vat === undefined || code === undefined) return undefined;
  return {
    currency: code,
    ...(country === undefined ? {} : { country }),
    diagnosis: at.field("diagnosis")?.number(0, MONEY_MOST) ?? 0,
    deposit: at.field("deposit")?.chance() ?? 0,
    ...(orderDays === undefined ? {} : { orderDays }),
    ...(guarantee === undefined ? {} : { guaranteeMonths: guarantee }),
    bands: readBands(at.field("bands")),
    ...(used === undefined ? {} : { used }),
    vat,
    withTax: at.field("prices")?.choice(PRICES) !== "without tax",
    rounding: at.field("rounding")?.choice(ROUNDINGS) ?? "half up",
    step,
    dueDays: at.field("due days")?.number(0, 365) ?? 14,
  };
}

/** The shop's currency, which must have a smallest unit that is known. */
export function readCurrency(at: Cursor | undefined): Currency | undefined {
  const code = at?.text() ?? "";
  if (isCurrency(code)) return code;
  return at?.refuse("trading.currency", CURRENCIES.join(" | "), didYouMean(code, CURRENCIES));
}

function readDays(at: Cursor): { readonly lo: number; readonly hi: number } | undefined {
  const text = at.word("working days: 2..5") ?? "";
  const match = /^(\d{1,3})(?:\.\.(\d{1,3}))?$/.exec(text);
  const lo = Number(match?.[1]);
  const hi = Number(match?.[2] ?? match?.[1]);
  return match !== null && lo <= hi ? { lo, hi } : at.refuse("trading.days", "working days: 2..5");
}

/** Months of guarantee on what was mended with a new part, and with a used one. */
export function readGuarantee(at: Cursor | undefined): Trading["guaranteeMonths"] {
  if (at === undefined) return undefined;
  at.onlyKeys(GUARANTEE_KEYS);
  const months = at.need("new", "new: months")?.number(0, MONTHS_MOST);
  const used = at.field("used")?.number(0, MONTHS_MOST);
  return months === undefined ? undefined : { new: months, used: used ?? months };
}

/** Prices by minutes, from the shortest to the longest. */
export function readBands(at: Cursor | undefined): Trading["bands"] {
  let before = 0;
  return (at?.items() ?? []).flatMap((item) => {
    item.onlyKeys(BAND_KEYS);
    const toMinutes = item.need("to", "to: minutes")?.number(1, 600);
    const price = item.need("price")?.number(0, MONEY_MOST);
    if (toMinutes === undefined || price === undefined) return [];
    if (toMinutes <= before) {
      item.refuse("trading.bands", "bands from the shortest to the longest", undefined, `to: ${toMinutes}`);
      return [];
    }
    before = toMinutes;
    return [{ toMinutes, price }];
  });
}

function readUsed(at: Cursor | undefined): Trading["used"] {
  if (at === undefined) return undefined;
  at.onlyKeys(USED_KEYS);
  const parts = at.need("parts", "parts: kinds that are fitted used")?.words() ?? [];
  const price = at.need("price", "price: 40 %, of a new one's")?.chance();
  const odds = at.need("odds", "odds: .9/.12")?.chancePair();
  if (price === undefined || odds === undefined) return undefined;
  return { parts: new Set(parts), price, cured: odds[0], back: odds[1] };
}

/** `19`, or `{category: O, reason: small business}`. */
export function readVat(at: Cursor | undefined): VatRate | undefined {
  if (at === undefined) return undefined;
  const isPlain = at.isText;
  if (!isPlain) at.onlyKeys(VAT_KEYS);
  const category = isPlain ? "S" : at.need("category", VAT_CATEGORIES.join(" | "))?.choice(VAT_CATEGORIES);
  const percent = isPlain ? at.number(0, 100) : (at.field("percent")?.number(0, 100) ?? 0);
  const reason = isPlain ? undefined : at.field("reason")?.word();
  if (category === undefined || percent === undefined) return undefined;
  const own = isPlain && percent === 0 ? "Z" : category;
  if (!fitsVat(own, percent, reason)) {
    return at.refuse(
      "trading.vat",
      "a rate above zero for S, none for the others, and a reason for E, AE and O alone",
      "Write 19, or {category: O, reason: small business}.",
    );
  }
  return vatRate(own, percent, reason);
}
