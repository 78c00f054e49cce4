/** Points and weights; the weights sum to 1. */
export interface Rule {
  readonly points: readonly number[];
  readonly weights: readonly number[];
}

const hermiteRules = new Map<number, Rule>();
const legendreRules = new Map<number, Rule>();

/**
 * Gauss-Hermite rule for the mean of f(Z), Z standard normal: exact for polynomials up to degree 2n − 1.
 *
 * @source W. Gautschi, "Orthogonal polynomials: computation and approximation" (2004), 3.1; roots by Newton's method
 */
export function gaussHermite(n: number): Rule {
  return kept(hermiteRules, n, () => {
    // He_n has its roots within ±√(4n + 2); orthonormal recurrence keeps the values small
    const value = (z: number): readonly [number, number] => {
      let last = 0;
      let now = 1;
      for (let k = 0; k < n; k++) [last, now] = [now, (z * now - Math.sqrt(k) * last) / Math.sqrt(k + 1)];
      return [now, Math.sqrt(n) * last];
    };
    const points = roots(n, Math.sqrt(4 * n + 2), value);
    return { points, weights: points.map((z) => 1 / value(z)[1] ** 2) };
  });
}

/**
 * Gauss-Legendre rule for the mean of f(U), U uniform in 0..1.
 *
 * @source as `gaussHermite`
 */
export function gaussLegendre(n: number): Rule {
  return kept(legendreRules, n, () => {
    const value = (x: number): readonly [number, number] => {
      let last = 0;
      let now = 1;
      for (let k = 0; k < n; k++) [last, now] = [now, ((2 * k + 1) * x * now - k * last) / (k + 1)];
      return [now, (n * (x * now - last)) / (x * x - 1)];
    };
    const points = roots(n, 1, value);
    const weights = points.map((x) => 1 / ((1 - x * x) * value(x)[1] ** 2));
    return { points: points.map((x) => 0.5 + 0.5 * x), weights };
  });
}

function kept(rules: Map<number, Rule>, n: number, make: () => Rule): Rule {
  if (!Number.isInteger(n) || n < 1 || n > 64) throw new Error(`a rule has 1 to 64 points, asked for ${n}`);
  const rule = rules.get(n) ?? make();
  rules.set(n, rule);
  return rule;
}

/** All n roots of a symmetric polynomial within ±reach: sign changes on a fine grid, then Newton. */
function roots(n: number, reach: number, value: (x: number) => readonly [number, number]): readonly number[] {
  const found: number[] = [];
  const cells = 40 * n * n;
  const half = Math.floor(n / 2);
  for (let i = 0; i < cells && found.length < half; i++) {
    const left = reach * (1 - i / cells);
    const right = reach * (1 - (i + 1) / cells);
    if (value(left)[0] * value(right)[0] > 0 || value(left)[0] === 0) continue;
    let x = 0.5 * (left + right);
    for (let k = 0; k < 20; k++) {
      const [f, slope] = value(x);
      x -= f / slope;
    }
    found.push(x);
  }
  const positive = [...found].reverse();
  return [...found.map((x) => -x), ...(n % 2 === 1 ? [0] : []), ...positive];
}
