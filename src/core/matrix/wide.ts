/**
 * A number of twice the usual precision (some 32 digits): the unevaluated sum of two doubles, `lo` at most half a unit
 * in the last place of `hi`.
 *
 * @source T. J. Dekker, Numer. Math. 18 (1971) 224; Y. Hida, X. S. Li, D. H. Bailey, ARITH-15 (2001) (both from memory)
 */
export interface Wide {
  readonly hi: number;
  readonly lo: number;
}

export const zero: Wide = { hi: 0, lo: 0 };
export const one: Wide = { hi: 1, lo: 0 };
/** π; `lo` is what the double leaves out (from memory, checked by sin in the tests). */
export const pi: Wide = { hi: Math.PI, lo: 1.2246467991473532e-16 };

export function wide(value: number): Wide {
  return { hi: value, lo: 0 };
}

/** A sum of two doubles whose rounding error is kept; exact for any order of magnitudes. */
function exactSum(a: number, b: number): Wide {
  const hi = a + b;
  const part = hi - a;
  return { hi, lo: a - (hi - part) + (b - part) };
}

/** As `exactSum`, where |a| ≥ |b|. */
function settle(a: number, b: number): Wide {
  const hi = a + b;
  return { hi, lo: b - (hi - a) };
}

/** 2²⁷ + 1: splits a double into two halves of 26 bits whose products are exact. */
const splitter = 134217729;

function exactProduct(a: number, b: number): Wide {
  const hi = a * b;
  const aLarge = splitter * a;
  const aHigh = aLarge - (aLarge - a);
  const aLow = a - aHigh;
  const bLarge = splitter * b;
  const bHigh = bLarge - (bLarge - b);
  const bLow = b - bHigh;
  return { hi, lo: aHigh * bHigh - hi + aHigh * bLow + aLow * bHigh + aLow * bLow };
}

export function add(x: Wide, y: Wide): Wide {
  const high = exactSum(x.hi, y.hi);
  const low = exactSum(x.lo, y.lo);
  const middle = settle(high.hi, high.lo + low.hi);
  return settle(middle.hi, middle.lo + low.lo);
}

export function negate(x: Wide): Wide {
  return { hi: -x.hi, lo: -x.lo };
}

export function subtract(x: Wide, y: Wide): Wide {
  return add(x, negate(y));
}

export function multiply(x: Wide, y: Wide): Wide {
  const product = exactProduct(x.hi, y.hi);
  return settle(product.hi, product.lo + (x.hi * y.lo + x.lo * y.hi));
}

/** Long division: two quotient digits of a double each, and a third to round. */
export function divide(x: Wide, y: Wide): Wide {
  const first = x.hi / y.hi;
  const rest = subtract(x, multiply(y, wide(first)));
  const second = rest.hi / y.hi;
  const third = subtract(rest, multiply(y, wide(second))).hi / y.hi;
  const quotient = settle(first, second);
  return add(quotient, wide(third));
}

export function toNumber(x: Wide): number {
  return x.hi + x.lo;
}
