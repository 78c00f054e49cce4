import type { Checked } from "../issue/index.ts";
import type { Currency, Rounding, VatRate } from "../money/index.ts";
import { readWith } from "../part/index.ts";
import { MONEY_MOST, readLetterhead } from "./read-shop.ts";
import { readBands, readCurrency, readGuarantee, readVat } from "./read-trading.ts";
import type { Letterhead, Shop } from "./shop.ts";
import type { Trading } from "./trading.ts";

/** What a shop says of itself on a device of its own: laid over the cost file that a job names. */
export interface OwnShop {
  readonly letterhead: Letterhead;
  readonly currency: Currency;
  readonly vat: VatRate;
  readonly perHour: number;
  readonly callOut: number;
  readonly diagnosis: number;
  /** Days until a bill is due. */
  readonly dueDays: number;
  readonly guaranteeMonths?: Trading["guaranteeMonths"];
  readonly deposit: number;
  readonly bands: Trading["bands"];
}

const OWN_SHOP_KEYS = [
  "letterhead",
  "currency",
  "vat",
  "per hour",
  "call-out",
  "diagnosis",
  "due days",
  "guarantee",
  "deposit",
  "bands",
] as const;

/**
 * A shop's own words, in those of a cost file.
 *
 * @param text  YAML or JSON: a map with `letterhead`, `currency`, `vat`, `per hour`, `call-out`, `diagnosis`, `due days`; a shop
 *              that tells no `guarantee`, `deposit` or `bands` gives none, asks none, and works by the hour
 */
export function readOwnShop(text: string): Checked<OwnShop> {
  return readWith(text, undefined, (root) => {
    root.onlyKeys(OWN_SHOP_KEYS);
    const letterhead = readLetterhead(root.need("letterhead", "letterhead: name and address"));
    const currency = readCurrency(root.need("currency", "currency: its three letters"));
    const vat = readVat(root.need("vat", "vat: 19, or a map with its category"));
    const money = (key: string, least = 0): number => root.need(key)?.number(least, MONEY_MOST) ?? Number.NaN;
    const perHour = money("per hour", 1);
    const callOut = money("call-out");
    const diagnosis = money("diagnosis");
    const dueDays = root.need("due days")?.number(0, 365);
    const guaranteeMonths = readGuarantee(root.field("guarantee"));
    const deposit = root.field("deposit")?.chance() ?? 0;
    const bands = readBands(root.field("bands"));
    if (letterhead === undefined || currency === undefined || vat === undefined || dueDays === undefined)
      return undefined;
    const guarantee = guaranteeMonths === undefined ? {} : { guaranteeMonths };
    return { letterhead, currency, vat, perHour, callOut, diagnosis, dueDays, deposit, bands, ...guarantee };
  });
}

/** Half a penny of a shop whose cost file says nothing of it. */
const USUAL_ROUNDING: Rounding = "half up";

/** A cost file with the shop's own words laid over it: what it agrees with its customers is its own alone, the rest the file's. */
export function withOwnShop(shop: Shop, own: OwnShop): Shop {
  const { letterhead, perHour, callOut, currency, vat, diagnosis, dueDays, deposit, bands, guaranteeMonths } = own;
  const { guaranteeMonths: _months, ...file } = shop.trading ?? { withTax: true, rounding: USUAL_ROUNDING, step: 1 };
  const { country } = letterhead.party;
  return {
    ...shop,
    currency,
    perHour,
    callOut,
    letterhead,
    trading: {
      ...file,
      ...(country === undefined ? {} : { country }),
      ...{ currency, vat, diagnosis, dueDays, deposit, bands },
      ...(guaranteeMonths === undefined ? {} : { guaranteeMonths }),
    },
  };
}
