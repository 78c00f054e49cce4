// The door of `money`: whole numbers of the smallest unit, tax by groups, the sums of a bill, and whom it is for.
export { type Agreed, netOfGross } from "./agreed-price.ts";
export { decimalText, type Minor, type Money, minorOf, money, moneyText } from "./amount.ts";
export { compact, creditorReference, isBic, isCreditorReference, isIban } from "./check-digits.ts";
export { CURRENCIES, type Currency, decimalsOf, isCurrency } from "./currency.ts";
export type { Bank, Party } from "./party.ts";
export { divideRounded, ROUNDINGS, type Rounding } from "./rounding.ts";
export { shareOut } from "./share-out.ts";
export { type Summed, type Taxed, type Totals, totalsOf, type VatGroup } from "./totals.ts";
export { fitsVat, percentText, taxOn, VAT_CATEGORIES, type VatCategory, type VatRate, vatKey, vatRate } from "./vat.ts";
