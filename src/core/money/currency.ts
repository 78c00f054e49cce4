/** Currencies known here, with the decimals of their smallest unit. @source ISO 4217, from memory */
const DECIMALS = {
  AUD: 2,
  CAD: 2,
  CHF: 2,
  CZK: 2,
  DKK: 2,
  EUR: 2,
  GBP: 2,
  ISK: 0,
  JPY: 0,
  NOK: 2,
  NZD: 2,
  PLN: 2,
  RON: 2,
  SEK: 2,
  USD: 2,
} as const satisfies Readonly<Record<string, 0 | 2>>;

export type Currency = keyof typeof DECIMALS;

/** Their codes, in the order of the alphabet. None has more than two decimals: an electronic invoice allows no more. */
export const CURRENCIES = Object.keys(DECIMALS) as readonly Currency[];

export function isCurrency(code: string): code is Currency {
  return Object.hasOwn(DECIMALS, code);
}

/** Digits behind the point. */
export function decimalsOf(currency: Currency): 0 | 2 {
  return DECIMALS[currency];
}
