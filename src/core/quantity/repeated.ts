/** What repeated readings of one quantity tell. */
export interface Repeated {
  readonly mean: number;
  /** Experimental standard deviation of one reading. */
  readonly deviation: number;
  /** Standard uncertainty of the mean. */
  readonly uncertainty: number;
  readonly degrees: number;
}

/**
 * Type A evaluation of at least two readings.
 *
 * @source GUM 4.2
 */
export function repeated(readings: readonly number[]): Repeated {
  const n = readings.length;
  if (n < 2) throw new Error(`type A evaluation needs two readings or more, got ${n}`);
  const mean = readings.reduce((sum, x) => sum + x, 0) / n;
  const deviation = Math.sqrt(readings.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (n - 1));
  return { mean, deviation, uncertainty: deviation / Math.sqrt(n), degrees: n - 1 };
}

/**
 * Correlation coefficient of readings taken together, pair by pair (of single readings and of their means alike).
 *
 * @source GUM 5.2.3
 */
export function correlationOfPairs(a: readonly number[], b: readonly number[]): number {
  const x = repeated(a);
  const y = repeated(b);
  const sum = a.reduce((total, value, i) => total + (value - x.mean) * ((b[i] ?? Number.NaN) - y.mean), 0);
  return sum / (x.degrees * x.deviation * y.deviation);
}

/**
 * Effective degrees of freedom of a combined uncertainty (Welch-Satterthwaite); a part with `degrees` Infinity counts as known
 * exactly. Truncate to the next lower whole number only when reading a printed table of Student's t.
 *
 * @source GUM G.4.1, formula G.2b
 */
export function effectiveDegrees(parts: readonly { readonly u: number; readonly degrees: number }[]): number {
  const square = parts.reduce((sum, part) => sum + part.u ** 2, 0);
  const rest = parts.reduce((sum, part) => sum + part.u ** 4 / part.degrees, 0);
  return square ** 2 / rest;
}
