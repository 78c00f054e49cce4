import type { LedgerEvent } from "../../../core/ledger/index.ts";
import { type Currency, type Minor, minorOf, money, moneyText } from "../../../core/money/index.ts";

/** Smallest units as they stand on a paper. */
export function minorText(minor: Minor, currency: Currency): string {
  return moneyText(money(minor, currency));
}

/** An amount of an event as it stands on a paper; a plain number where the shop's currency is not known. */
export function amountText(amount: number, currency: Currency | undefined): string {
  return currency === undefined ? String(amount) : minorText(minorOf(amount, currency), currency);
}

/** What somebody typed as an amount; undefined where it is none above zero. */
export function typedAmount(typed: string): number | undefined {
  const amount = Number(typed.trim().replace(",", "."));
  return typed.trim() !== "" && amount > 0 && amount <= 1e6 ? amount : undefined;
}

/** When an event was written, for a person. */
export function whenText(event: LedgerEvent | undefined): string {
  return event === undefined
    ? ""
    : new Date(event.time).toLocaleString([], { dateStyle: "medium", timeStyle: "short", hourCycle: "h23" });
}
