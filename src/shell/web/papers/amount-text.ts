import { type Currency, type Minor, minorOf, money, moneyText } from "../../../core/money/index.ts";

/** Smallest units as they stand on a paper. */
export function minorText(minor: Minor, currency: Currency): string {
  return moneyText(money(minor, currency));
}

/** An amount of an event as it stands on a paper; a plain number where the shop's currency is not known. */
export function amountText(amount: number, currency: Currency | undefined): string {
  return currency === undefined ? String(amount) : minorText(minorOf(amount, currency), currency);
}

/** What somebody typed as an amount, with a comma or a point; undefined where it is none. A discount is below zero. */
export function typedNumber(typed: string): number | undefined {
  const text = typed.trim().replace(",", ".").replace("−", "-");
  return /^-?\d+(\.\d{1,2})?$/.test(text) && Math.abs(Number(text)) <= 1e6 ? Number(text) : undefined;
}

/** What somebody typed as an amount above zero; undefined where it is none. */
export function typedAmount(typed: string): number | undefined {
  const amount = typedNumber(typed);
  return amount !== undefined && amount > 0 ? amount : undefined;
}
