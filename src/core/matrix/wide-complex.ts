import * as w from "./wide.ts";

/** A complex number of twice the usual precision. */
export interface WideComplex {
  readonly re: w.Wide;
  readonly im: w.Wide;
}

export const complexZero: WideComplex = { re: w.zero, im: w.zero };
export const complexOne: WideComplex = { re: w.one, im: w.zero };

export function complexFrom(re: number, im: number): WideComplex {
  return { re: w.wide(re), im: w.wide(im) };
}

export function complexAdd(x: WideComplex, y: WideComplex): WideComplex {
  return { re: w.add(x.re, y.re), im: w.add(x.im, y.im) };
}

export function complexNegate(x: WideComplex): WideComplex {
  return { re: w.negate(x.re), im: w.negate(x.im) };
}

export function complexSubtract(x: WideComplex, y: WideComplex): WideComplex {
  return complexAdd(x, complexNegate(y));
}

export function complexMultiply(x: WideComplex, y: WideComplex): WideComplex {
  return {
    re: w.subtract(w.multiply(x.re, y.re), w.multiply(x.im, y.im)),
    im: w.add(w.multiply(x.re, y.im), w.multiply(x.im, y.re)),
  };
}

/** 1 / x; a purely real or imaginary x stays so. */
export function complexInvert(x: WideComplex): WideComplex {
  const square = w.add(w.multiply(x.re, x.re), w.multiply(x.im, x.im));
  return { re: w.divide(x.re, square), im: w.negate(w.divide(x.im, square)) };
}

/** |re| + |im|, between 1 and √2 times the modulus. */
export function taxicab(x: WideComplex): number {
  return Math.abs(x.re.hi) + Math.abs(x.im.hi);
}

export function isZero(x: WideComplex): boolean {
  return x.re.hi === 0 && x.im.hi === 0;
}
