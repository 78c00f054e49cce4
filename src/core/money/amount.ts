import { type Currency, decimalsOf } from "./currency.ts";

/** A whole number of a currency's smallest unit: pence, cents. */
export type Minor = number;

/** An amount as it stands on paper. */
export interface Money {
  readonly minor: Minor;
  readonly currency: Currency;
}

/** More than any repair by far, and small enough for every product here. */
const MINOR_MOST = 1e12;

/** An amount of so many smallest units. @throws RangeError where it is no whole number, or beyond all sense */
export function money(minor: Minor, currency: Currency): Money {
  return { minor: checkedMinor(minor), currency };
}

/**
 * Smallest units of a plain number of the currency, as the planner counts: 45 (euros) → 4500 (cents). Half a unit goes
 * away from zero; what a double makes of a written decimal (1.005) is taken as it was written.
 */
export function minorOf(amount: number, currency: Currency): Minor {
  const scale = 10 ** decimalsOf(currency);
  // A double near a written half (1.005, 8.615) lies a hair below it: six digits of the smallest unit put it back.
  const scaled = Number((Math.abs(amount) * scale).toFixed(6));
  const rounded = Math.floor(scaled + 0.5);
  return checkedMinor(amount < 0 && rounded !== 0 ? -rounded : rounded);
}

/** The amount as a plain decimal with a point: `45.00`, `-0.05`; what an electronic invoice holds. */
export function decimalText({ minor, currency }: Money): string {
  const decimals = decimalsOf(currency);
  const digits = String(Math.abs(minor)).padStart(decimals + 1, "0");
  const whole = digits.slice(0, digits.length - decimals);
  const sign = minor < 0 ? "-" : "";
  return decimals === 0 ? `${sign}${whole}` : `${sign}${whole}.${digits.slice(-decimals)}`;
}

/** The amount for a person: `1 234.50 EUR`; a thin group of three, so that no locale mistakes it. */
export function moneyText(amount: Money): string {
  const [whole = "", part] = decimalText(amount).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, " ");
  return `${part === undefined ? grouped : `${grouped}.${part}`} ${amount.currency}`;
}

export function checkedMinor(minor: Minor): Minor {
  if (!Number.isInteger(minor) || Math.abs(minor) > MINOR_MOST) throw new RangeError(`money: ${minor}`);
  return minor;
}
