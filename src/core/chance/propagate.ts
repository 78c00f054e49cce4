import type { Rule } from "./quadrature.ts";

/** Mean and standard deviation of a result. */
export interface Moments {
  readonly mean: number;
  readonly deviation: number;
}

/**
 * Moments of a function of independent inputs, each given by its quadrature rule, over the grid of all combinations. Right where
 * first-order propagation is not: at a sensitivity of zero, a steep bend, a wide range. Costs the product of the rules' sizes.
 */
export function momentsOverGrid(f: (inputs: readonly number[]) => number, rules: readonly Rule[]): Moments {
  const inputs = rules.map(() => 0);
  const values: number[] = [];
  const weights: number[] = [];
  const visit = (index: number, weight: number): void => {
    const rule = rules[index];
    if (rule === undefined) {
      values.push(f(inputs));
      weights.push(weight);
      return;
    }
    rule.points.forEach((point, i) => {
      inputs[index] = point;
      visit(index + 1, weight * rule.weights[i]);
    });
  };
  visit(0, 1);
  const mean = values.reduce((sum, value, i) => sum + value * weights[i], 0);
  const variance = values.reduce((sum, value, i) => sum + (value - mean) ** 2 * weights[i], 0);
  return { mean, deviation: Math.sqrt(variance) };
}

/** Results drawn at random, sorted, with their moments. */
export interface Sample extends Moments {
  readonly sorted: Float64Array;
}

/**
 * Propagation of distributions by drawing: `count` results of `draw`.
 *
 * @source JCGM 101:2008, clause 7
 */
export function sample(draw: () => number, count: number): Sample {
  const values = new Float64Array(count);
  let mean = 0;
  for (let i = 0; i < count; i++) {
    const value = draw();
    values[i] = value;
    mean += (value - mean) / (i + 1);
  }
  let square = 0;
  for (const value of values) square += (value - mean) ** 2;
  return { mean, deviation: Math.sqrt(square / (count - 1)), sorted: values.sort() };
}

/** Shortest interval that holds a share `coverage` of a sample.
 * @source JCGM 101:2008, 7.7.4 */
export function shortestInterval({ sorted }: Sample, coverage: number): { readonly lo: number; readonly hi: number } {
  const held = Math.min(sorted.length - 1, Math.round(coverage * sorted.length));
  let best = 0;
  const width = (i: number): number => sorted[i + held] - sorted[i];
  for (let i = 1; i + held < sorted.length; i++) if (width(i) < width(best)) best = i;
  return { lo: sorted[best], hi: sorted[best + held] };
}
