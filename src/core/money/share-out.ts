import { checkedMinor, type Minor } from "./amount.ts";

/**
 * Shares an amount out by weights so that the shares sum to it exactly: each rounded down, what is left given out one
 * unit each to the largest remainders, the first where they are equal.
 *
 * @param weights  whole numbers, none below zero; all zero shares equally
 * @source largest-remainder rule (Hamilton), from memory
 */
export function shareOut(total: Minor, weights: readonly number[]): Minor[] {
  if (weights.length === 0) {
    if (total !== 0) throw new RangeError("shareOut: nobody to share with");
    return [];
  }
  const parts = weights.map((weight) => BigInt(checkedMinor(weight)));
  if (parts.some((part) => part < 0n)) throw new RangeError("shareOut: a weight below zero");
  const given = parts.reduce((sum, part) => sum + part, 0n);
  const whole = given === 0n ? BigInt(parts.length) : given;
  const size = BigInt(Math.abs(checkedMinor(total)));
  const products = parts.map((part) => size * (given === 0n ? 1n : part));
  const shares = products.map((product) => product / whole);
  const left = Number(size - shares.reduce((sum, share) => sum + share, 0n));
  const order = products
    .map((product, index) => ({ index, remainder: product % whole }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1));
  const extra = new Set(order.slice(0, left).map(({ index }) => index));
  return shares.map((share, index) => {
    const value = Number(share) + (extra.has(index) ? 1 : 0);
    return total < 0 && value !== 0 ? -value : value;
  });
}
