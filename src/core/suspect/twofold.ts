/**
 * A number held as the unevaluated sum of two doubles, some 32 digits: log chances of a million must differ exactly
 * in the thirteenth decimal before they become odds.
 *
 * @source Dekker, Numer. Math. 18 (1971) and Knuth's two-sum (from memory)
 */
export interface Twofold {
  readonly hi: number;
  readonly lo: number;
}

export const ZERO: Twofold = { hi: 0, lo: 0 };

/** a + b exactly. */
export function sumOf(a: number, b: number): Twofold {
  const hi = a + b;
  const bPart = hi - a;
  return { hi, lo: a - (hi - bPart) + (b - bPart) };
}

/** a · b exactly, unless the product leaves the range of doubles. */
export function productOf(a: number, b: number): Twofold {
  const hi = a * b;
  const [aHi, aLo] = split(a);
  const [bHi, bLo] = split(b);
  return { hi, lo: aHi * bHi - hi + aHi * bLo + aLo * bHi + aLo * bLo };
}

function split(a: number): [number, number] {
  const shifted = 134217729 * a;
  const hi = shifted - (shifted - a);
  return [hi, a - hi];
}

export function add(a: Twofold, b: Twofold): Twofold {
  const top = sumOf(a.hi, b.hi);
  const low = sumOf(a.lo, b.lo);
  const first = sumOf(top.hi, top.lo + low.hi);
  return sumOf(first.hi, first.lo + low.lo);
}

export function addDouble(a: Twofold, b: number): Twofold {
  const top = sumOf(a.hi, b);
  return sumOf(top.hi, top.lo + a.lo);
}

export function negate(a: Twofold): Twofold {
  return { hi: -a.hi, lo: -a.lo };
}

export function multiply(a: Twofold, b: Twofold): Twofold {
  const top = productOf(a.hi, b.hi);
  return sumOf(top.hi, top.lo + (a.hi * b.lo + a.lo * b.hi));
}

/** a / b for a double b that is not 0. */
export function divide(a: Twofold, b: number): Twofold {
  const first = a.hi / b;
  const rest = add(a, negate(productOf(first, b)));
  const second = rest.hi / b;
  const rest2 = add(rest, negate(productOf(second, b)));
  return addDouble(sumOf(first, second), rest2.hi / b);
}

/** −z²/2. */
export function minusHalfSquare(z: Twofold): Twofold {
  const square = multiply(z, z);
  return { hi: -square.hi / 2, lo: -square.lo / 2 };
}

export function value(a: Twofold): number {
  return a.hi + a.lo;
}
