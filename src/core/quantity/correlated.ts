import type { Estimate } from "./estimate.ts";

/**
 * Estimates of quantities that were found correlated, as in a set of simultaneous readings: `correlations[i][j]` with ones on
 * the diagonal. Each becomes a sum of independent sources `name#1`, `name#2` ... (rows of the Cholesky factor).
 * Throws when the matrix is not square, not symmetric or not positive semidefinite: no readings could give it.
 *
 * @source GUM 5.2 and H.2
 */
export function correlated(
  name: string,
  values: readonly number[],
  uncertainties: readonly number[],
  correlations: readonly (readonly number[])[],
): readonly Estimate[] {
  const n = values.length;
  const at = (i: number, j: number): number => {
    const r = correlations[i]?.[j];
    if (r === undefined || Math.abs(r - (correlations[j]?.[i] ?? Number.NaN)) > 1e-12) {
      throw new Error(`correlations must be a symmetric ${n} by ${n} matrix`);
    }
    return r;
  };
  const factor: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row: number[] = [];
    factor.push(row);
    for (let j = 0; j <= i; j++) {
      let rest = at(i, j);
      for (let k = 0; k < j; k++) rest -= (row[k] ?? 0) * (factor[j]?.[k] ?? 0);
      if (i === j) {
        if (rest < -1e-12) throw new Error("correlations are not positive semidefinite");
        row.push(Math.sqrt(Math.max(0, rest)));
      } else {
        const pivot = factor[j]?.[j] ?? 0;
        row.push(pivot === 0 ? 0 : rest / pivot);
      }
    }
  }
  return values.map((value, i) => {
    const u = uncertainties[i] ?? 0;
    return { value, parts: new Map((factor[i] ?? []).map((l, k) => [`${name}#${k + 1}`, l * u])) };
  });
}
