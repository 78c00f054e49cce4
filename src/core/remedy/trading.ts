import type { Currency, Rounding, VatRate } from "../money/index.ts";

/** What a shop agrees with its customers: fees, guarantee, used parts, tax. Money is in the shop's currency. */
export interface Trading {
  readonly currency: Currency;
  /** ISO 3166-1, two letters: whose service lives and whose spare-part law hold. */
  readonly country?: string;
  /** For finding the fault, where it is then not mended; mended, it is part of the work. */
  readonly diagnosis: number;
  /** Share of a part's price asked before it is ordered. */
  readonly deposit: number;
  /** Working days until an ordered part is there. */
  readonly orderDays?: { readonly lo: number; readonly hi: number };
  /** Months in which the shop mends again for nothing. */
  readonly guaranteeMonths?: { readonly new: number; readonly used: number };
  /** Work at fixed prices by its minutes, the shortest first; by the hour where there are none. */
  readonly bands: readonly { readonly toMinutes: number; readonly price: number }[];
  /** Used and bench-tested parts that the shop fits. */
  readonly used?: UsedParts;
  readonly vat: VatRate;
  /** Do the shop's prices hold the tax? */
  readonly withTax: boolean;
  readonly rounding: Rounding;
  /** Smallest amount in which it can be paid, in the smallest unit of the currency. */
  readonly step: number;
  /** Days until a bill is due. */
  readonly dueDays: number;
}

export interface UsedParts {
  /** Part kinds, and assemblies by id. */
  readonly parts: ReadonlySet<string>;
  /** Price as a share of the new part's. */
  readonly price: number;
  /** Chance that one cures where a new one surely would, and chance that it fails within twelve months. */
  readonly cured: number;
  readonly back: number;
}

/** Money for so many minutes of work, by the shop's bands or by the hour. */
export function workPrice(
  minutes: number,
  shop: { readonly perHour: number; readonly trading?: Pick<Trading, "bands"> },
): number {
  const bands = shop.trading?.bands ?? [];
  const band = bands.find(({ toMinutes }) => minutes <= toMinutes);
  if (band !== undefined) return band.price;
  // Beyond the longest band the rest goes by the hour.
  const last = bands.at(-1);
  const rest = last === undefined ? minutes : minutes - last.toMinutes;
  return (last?.price ?? 0) + (rest * shop.perHour) / 60;
}
