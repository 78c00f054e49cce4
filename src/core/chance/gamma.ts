const halfLogTwoPi = 0.9189385332046727;

/** Coefficients B₂ₖ / (2k (2k − 1)) of Stirling's series.
 * @source NIST Digital Library of Mathematical Functions 5.11.1 */
const stirling = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400];

/** ln Γ(x), x > 0. */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new Error(`the logarithm of gamma needs a number above zero, got ${x}`);
  if (x >= 10) return (x - 0.5) * Math.log(x) - x + halfLogTwoPi + stirlingTail(x);
  if (x === 1 || x === 2) return 0;
  let product = 1;
  let shifted = x;
  while (shifted < 10) product *= shifted++;
  return (shifted - 0.5) * Math.log(shifted) - shifted + halfLogTwoPi + stirlingTail(shifted) - Math.log(product);
}

/** What Stirling's formula for ln Γ(x) leaves out. */
export function stirlingError(x: number): number {
  return x >= 10 ? stirlingTail(x) : logGamma(x) - ((x - 0.5) * Math.log(x) - x + halfLogTwoPi);
}

function stirlingTail(x: number): number {
  const inverse = 1 / (x * x);
  let sum = 0;
  for (let i = stirling.length - 1; i >= 0; i--) sum = sum * inverse + stirling[i];
  return sum / x;
}

/**
 * Deviance x ln(x/m) + m − x without cancellation near x = m.
 *
 * @source C. Loader, "Fast and accurate computation of binomial probabilities" (2000)
 */
export function deviance(x: number, m: number): number {
  if (x === 0) return m;
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let sum = (x - m) * v;
  let term = 2 * x * v;
  for (let j = 1; j < 1000; j++) {
    term *= v * v;
    const next = sum + term / (2 * j + 1);
    if (next === sum) return sum;
    sum = next;
  }
  return sum;
}

/** ln of both tails of the gamma distribution with this shape and rate 1, each accurate in its own size. */
function logGammaTails(shape: number, x: number): { readonly below: number; readonly above: number } {
  if (x <= 0) return { below: Number.NEGATIVE_INFINITY, above: 0 };
  if (x === Number.POSITIVE_INFINITY) return { below: 0, above: Number.NEGATIVE_INFINITY };
  const front = -deviance(shape, x) - stirlingError(shape) - 0.5 * Math.log(2 * Math.PI * shape);
  if (x < shape + 1) {
    const below = front + Math.log(lowerSeries(shape, x));
    return { below, above: complement(below) };
  }
  const above = front + Math.log(shape) + Math.log(upperFraction(shape, x));
  return { below: complement(above), above };
}

/** @source NIST Digital Library of Mathematical Functions 8.11.4 */
function lowerSeries(shape: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; k < 100_000; k++) {
    term *= x / (shape + k);
    sum += term;
    if (term < 1e-17 * sum) return sum;
  }
  throw new Error(`incomplete gamma does not converge at shape ${shape}, ${x}`);
}

/** Continued fraction by Lentz's method.
 * @source NIST Digital Library of Mathematical Functions 8.9.2 */
function upperFraction(shape: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < 100_000; i++) {
    const a = -i * (i - shape);
    b += 2;
    d = 1 / (a * d + b || tiny);
    c = b + a / c || tiny;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) return h;
  }
  throw new Error(`incomplete gamma does not converge at shape ${shape}, ${x}`);
}

function complement(log: number): number {
  return log >= 0 ? Number.NEGATIVE_INFINITY : Math.log(-Math.expm1(log));
}

/** P(X ≤ x) of the gamma distribution. */
export function gammaCdf(x: number, shape: number, rate = 1): number {
  return Math.exp(logGammaTails(shape, x * rate).below);
}

/** P(X > x) of the gamma distribution, accurate in its own size. */
export function gammaSf(x: number, shape: number, rate = 1): number {
  return Math.exp(logGammaTails(shape, x * rate).above);
}

const smallestLog = -690;

/** Quantile of the gamma distribution. */
export function gammaQuantile(p: number, shape: number, rate = 1): number {
  if (!(p >= 0 && p <= 1) || !(shape > 0)) throw new Error(`no gamma quantile at p ${p}, shape ${shape}`);
  if (p === 0) return 0;
  if (p === 1) return Number.POSITIVE_INFINITY;
  return (p <= 0.5 ? fromBelow(Math.log(p), shape) : fromAbove(Math.log1p(-p), shape)) / rate;
}

/** ln of x times the density. */
function logFlow(shape: number, x: number): number {
  return 0.5 * Math.log(shape / (2 * Math.PI)) - deviance(shape, x) - stirlingError(shape);
}

/** Newton on the logarithm of the lower tail over ln x, where it is concave: after one step it cannot overshoot. */
function fromBelow(target: number, shape: number): number {
  let s = Math.log(shape);
  for (let i = 0; i < 200; i++) {
    const x = Math.exp(s);
    const tail = logGammaTails(shape, x).below;
    const step = (target - tail) * Math.exp(tail - logFlow(shape, x));
    // below this, doubles end: from there once more, then it is zero
    if (s === smallestLog && step < 0) return 0;
    s = Math.max(smallestLog, s + step);
    if (Math.abs(step) < 1e-15 * Math.max(1, Math.abs(s))) break;
  }
  return Math.exp(s);
}

/** Newton on the logarithm of the upper tail over x, which bends one way only, down from shape 1 on and up below it. */
function fromAbove(target: number, shape: number): number {
  let x = shape;
  for (let i = 0; i < 200; i++) {
    const tail = logGammaTails(shape, x).above;
    const step = x * (tail - target) * Math.exp(tail - logFlow(shape, x));
    x += step;
    if (Math.abs(step) < 1e-15 * x) break;
  }
  return x;
}
