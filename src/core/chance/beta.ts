import { deviance, logGamma, stirlingError } from "./gamma.ts";

/** ln B(a, b). */
export function logBeta(a: number, b: number): number {
  const [small, large] = a < b ? [a, b] : [b, a];
  if (large < 10) return logGamma(small) + logGamma(large) - logGamma(small + large);
  // ln Γ(large) − ln Γ(small + large) with the large terms taken off each other first
  const n = small + large;
  const rest = -(large - 0.5) * Math.log1p(small / large) - small * Math.log(n) + small;
  return logGamma(small) + rest + stirlingError(large) - stirlingError(n);
}

/** ln of x^a y^b / B(a, b), where y = 1 − x is given for itself. */
function logFront(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const errors = stirlingError(n) - stirlingError(a) - stirlingError(b);
  return errors - deviance(a, n * x) - deviance(b, n * y) + 0.5 * Math.log((a / n) * (b / (2 * Math.PI)));
}

/** Continued fraction by Lentz's method.
 * @source NIST Digital Library of Mathematical Functions 8.17.22 */
function fraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny);
  let h = d;
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || tiny);
    c = 1 + even / c || tiny;
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || tiny);
    c = 1 + odd / c || tiny;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) return h;
  }
  throw new Error(`incomplete beta does not converge at (${a}, ${b}), ${x}`);
}

/** ln of the lower tail at x; y = 1 − x given for itself, so that neither end loses digits. */
function logBelow(a: number, b: number, x: number, y: number): number {
  if (x <= 0) return Number.NEGATIVE_INFINITY;
  if (y <= 0) return 0;
  const front = logFront(a, b, x, y);
  if (x <= (a + 1) / (a + b + 2)) return front - Math.log(a) + Math.log(fraction(a, b, x));
  const above = front - Math.log(b) + Math.log(fraction(b, a, y));
  return above >= 0 ? Number.NEGATIVE_INFINITY : Math.log(-Math.expm1(above));
}

/** P(X ≤ x) of the beta distribution: the regularised incomplete beta function. */
export function betaCdf(x: number, a: number, b: number): number {
  return Math.exp(logBelow(a, b, x, 1 - x));
}

/** P(X > x) of the beta distribution, accurate in its own size. */
export function betaSf(x: number, a: number, b: number): number {
  return Math.exp(logBelow(b, a, 1 - x, x));
}

/**
 * Quantile of the beta distribution and what it leaves to 1, each accurate in its own size: of Beta(80, 0.2) nearly everything lies
 * closer to 1 than a double can tell. Newton's method on the logarithm of the smaller tail over the logit, where it is
 * concave and cannot run away.
 */
export function betaQuantile(p: number, a: number, b: number): { readonly x: number; readonly complement: number } {
  if (!(p >= 0 && p <= 1) || !(a > 0 && b > 0)) throw new Error(`no beta quantile at p ${p}, (${a}, ${b})`);
  if (p === 0) return { x: 0, complement: 1 };
  if (p === 1) return { x: 1, complement: 0 };
  if (p > 0.5) {
    const { x, complement } = lowerQuantile(Math.log1p(-p), b, a);
    return { x: complement, complement: x };
  }
  return lowerQuantile(Math.log(p), a, b);
}

const endOfLogit = 690;

function lowerQuantile(target: number, a: number, b: number): { readonly x: number; readonly complement: number } {
  let t = Math.log(a / b);
  for (let i = 0; i < 200; i++) {
    const x = 1 / (1 + Math.exp(-t));
    const y = 1 / (1 + Math.exp(t));
    const tail = logBelow(a, b, x, y);
    const step = (target - tail) * Math.exp(tail - logFront(a, b, x, y));
    // beyond these, doubles end: from there once more, then it is the end itself
    if (t === -endOfLogit && step < 0) return { x: 0, complement: 1 };
    if (t === endOfLogit && step > 0) return { x: 1, complement: 0 };
    t = Math.min(endOfLogit, Math.max(-endOfLogit, t + step));
    if (Math.abs(step) < 1e-15 * Math.max(1, Math.abs(t))) break;
  }
  return { x: 1 / (1 + Math.exp(-t)), complement: 1 / (1 + Math.exp(t)) };
}
