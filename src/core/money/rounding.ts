/** What becomes of half a penny. Both are told on the paper; neither is left to floating point. */
export const ROUNDINGS = ["half up", "half even"] as const;
/** `half up`: half a unit goes away from zero, as on an invoice. `half even`: to the even neighbour, as in some books. */
export type Rounding = (typeof ROUNDINGS)[number];

/**
 * `numerator / denominator` as a whole number, exactly.
 *
 * @param denominator  above zero
 * @throws RangeError where the answer is beyond the whole numbers that a double holds exactly
 */
export function divideRounded(numerator: bigint, denominator: bigint, rounding: Rounding): number {
  if (denominator <= 0n) throw new RangeError(`divideRounded: denominator ${denominator}`);
  const size = numerator < 0n ? -numerator : numerator;
  const whole = size / denominator;
  const twice = 2n * (size % denominator);
  const goesUp = twice > denominator || (twice === denominator && (rounding === "half up" || whole % 2n === 1n));
  const rounded = goesUp ? whole + 1n : whole;
  // No minus zero: it would be printed.
  const value = Number(numerator < 0n && rounded !== 0n ? -rounded : rounded);
  if (!Number.isSafeInteger(value)) throw new RangeError(`divideRounded: ${rounded} is too large`);
  return value;
}
