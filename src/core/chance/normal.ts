import { erf, erfc, erfcx } from "./error-function.ts";

const halfLogTwoPi = 0.9189385332046728;

/** Density of the standard normal distribution. */
export function normalPdf(z: number): number {
  return Math.exp(-0.5 * z * z - halfLogTwoPi);
}

export function logNormalPdf(z: number): number {
  return -0.5 * z * z - halfLogTwoPi;
}

/** P(Z ≤ z), accurate in its own size in the lower tail. */
export function normalCdf(z: number): number {
  return 0.5 * erfc(-z * Math.SQRT1_2);
}

/** P(Z > z), accurate in its own size in the upper tail. */
export function normalSf(z: number): number {
  return 0.5 * erfc(z * Math.SQRT1_2);
}

/** ln P(Z > z); finite at any z that is: -804.6 at 40 standard deviations. */
export function logNormalSf(z: number): number {
  if (z > 0) return Math.log(0.5 * erfcx(z * Math.SQRT1_2)) - 0.5 * z * z;
  return Math.log1p(-normalSf(-z));
}

/** ln P(Z ≤ z). */
export function logNormalCdf(z: number): number {
  return logNormalSf(-z);
}

/**
 * ln P(a < Z ≤ b) without cancellation: deep in a tail, across the middle, or for an interval too narrow to subtract.
 * Minus Infinity for an empty interval.
 */
export function logNormalInterval(a: number, b: number): number {
  if (!(a < b)) return Number.NEGATIVE_INFINITY;
  if (a === Number.NEGATIVE_INFINITY) return logNormalCdf(b);
  if (b === Number.POSITIVE_INFINITY) return logNormalSf(a);
  return logNormalBand(0.5 * (a + b), b - a);
}

/** ln P(|Z − middle| < width/2): the interval by its middle and width, as a display's last digit gives it. */
export function logNormalBand(middle: number, width: number): number {
  const m = Math.abs(middle);
  if (width < 0.1 && m * width < 0.1) return logNormalPdf(m) + Math.log(width * narrow(m * m, width * width));
  const a = m - 0.5 * width;
  const b = m + 0.5 * width;
  if (a > 0) {
    // both ends in one tail: erfc(a) − erfc(b) with the common exp(−a²/2), which may underflow, kept as a logarithm
    const near = erfcx(a * Math.SQRT1_2);
    const far = erfcx(b * Math.SQRT1_2) * Math.exp(-m * width);
    return Math.log(0.5 * (near - far)) - 0.5 * a * a;
  }
  const outside = normalCdf(a) + normalSf(b);
  if (outside < 0.5) return Math.log1p(-outside);
  return Math.log(0.5 * (erf(b * Math.SQRT1_2) - erf(a * Math.SQRT1_2)));
}

/** Mean of the density over a narrow band, over the density in its middle: series in the Hermite polynomials. */
function narrow(mm: number, ww: number): number {
  const second = mm - 1;
  const fourth = (mm - 6) * mm + 3;
  const sixth = ((mm - 15) * mm + 45) * mm - 15;
  return 1 + ww * (second / 24 + ww * (fourth / 1920 + (ww * sixth) / 322560));
}

/** z with P(Z ≤ z) = p; ∓Infinity at 0 and 1. */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) throw new Error(`a probability lies in 0..1, got ${p}`);
  return p > 0.5 ? -quantileOfLog(Math.log1p(-p)) : quantileOfLog(Math.log(p));
}

/** z with ln P(Z ≤ z) = logP ≤ ln ½, by Newton on a concave function from its left: it cannot overshoot. */
export function quantileOfLog(logP: number): number {
  if (logP === Number.NEGATIVE_INFINITY) return logP;
  let z = -Math.sqrt(Math.max(0, -2 * logP));
  for (let i = 0; i < 60; i++) {
    const log = logNormalCdf(z);
    const step = (logP - log) * Math.exp(log - logNormalPdf(z));
    z += step;
    if (Math.abs(step) <= 1e-16 * Math.max(1, Math.abs(z))) break;
  }
  return z;
}
