/**
 * A value and where its uncertainty comes from: for every independent error source, by name, the signed product of
 * sensitivity and standard uncertainty. Two estimates that share a name share that error, so the gain error of one meter
 * cancels in a difference of two of its readings. Names survive being stored.
 *
 * @source GUM 5.1 and 5.2: law of propagation; the variance of a sum of independent sources is the sum of the squares
 */
export interface Estimate {
  readonly value: number;
  readonly parts: ReadonlyMap<string, number>;
}

/** A value without any uncertainty. */
export function exactly(value: number): Estimate {
  return { value, parts: new Map() };
}

/** A value with named sources: `estimate(26.4, { "meter/gain": 0.12, "leads": 0.05 })`. */
export function estimate(value: number, parts: Readonly<Record<string, number>>): Estimate {
  return { value, parts: new Map(Object.entries(parts)) };
}

/**
 * Result of any function of estimates to first order: its value and the partial derivative by each input.
 *
 * @example applyFunction(v / i, [[V, 1 / i], [I, -v / (i * i)]])
 */
export function applyFunction(value: number, inputs: readonly (readonly [Estimate, number])[]): Estimate {
  const parts = new Map<string, number>();
  for (const [input, partial] of inputs) {
    for (const [name, part] of input.parts) parts.set(name, (parts.get(name) ?? 0) + partial * part);
  }
  return { value, parts };
}

export function add(a: Estimate, b: Estimate): Estimate {
  return applyFunction(a.value + b.value, [
    [a, 1],
    [b, 1],
  ]);
}

export function subtract(a: Estimate, b: Estimate): Estimate {
  return applyFunction(a.value - b.value, [
    [a, 1],
    [b, -1],
  ]);
}

export function scale(a: Estimate, factor: number): Estimate {
  return applyFunction(a.value * factor, [[a, factor]]);
}

export function multiply(a: Estimate, b: Estimate): Estimate {
  return applyFunction(a.value * b.value, [
    [a, b.value],
    [b, a.value],
  ]);
}

export function divide(a: Estimate, b: Estimate): Estimate {
  const quotient = a.value / b.value;
  return applyFunction(quotient, [
    [a, 1 / b.value],
    [b, -quotient / b.value],
  ]);
}

/** Combined standard uncertainty. */
export function uncertainty(a: Estimate): number {
  return Math.hypot(...a.parts.values());
}

/** Covariance of two estimates through the sources they share. */
export function covariance(a: Estimate, b: Estimate): number {
  let sum = 0;
  for (const [name, part] of a.parts) sum += part * (b.parts.get(name) ?? 0);
  return sum;
}

/** Correlation coefficient, 0 where either has no uncertainty. */
export function correlation(a: Estimate, b: Estimate): number {
  const product = uncertainty(a) * uncertainty(b);
  return product === 0 ? 0 : covariance(a, b) / product;
}
