import { describe, expect, test } from "vitest";
import { estimate, multiply, scale, uncertainty } from "../quantity/index.ts";
import { momentsOverGrid, sample, shortestInterval } from "./propagate.ts";
import { gaussHermite, gaussLegendre, type Rule } from "./quadrature.ts";
import { seeded } from "./random.ts";
import { draw, quadrature, quantileOf } from "./rated-spread.ts";

const seed = 20261125;
const draws = 400_000;

/** Rectangular between two limits. */
const between = (lo: number, hi: number, points: number): Rule => {
  const rule = gaussLegendre(points);
  return { points: rule.points.map((u) => lo + u * (hi - lo)), weights: rule.weights };
};
const normal = (mean: number, u: number, points: number): Rule => {
  const rule = gaussHermite(points);
  return { points: rule.points.map((z) => mean + u * z), weights: rule.weights };
};

describe("quadrature rules", () => {
  test("three Hermite points are 0 and ±√3 with weights 2/3 and 1/6; seven integrate z¹² to 10395", () => {
    const { points, weights } = gaussHermite(3);
    expect(points).toEqual([expect.closeTo(-Math.sqrt(3), 14), 0, expect.closeTo(Math.sqrt(3), 14)]);
    expect(weights).toEqual([expect.closeTo(1 / 6, 14), expect.closeTo(2 / 3, 14), expect.closeTo(1 / 6, 14)]);
    const seven = gaussHermite(7);
    const twelfth = seven.points.reduce((sum, z, i) => sum + z ** 12 * (seven.weights[i] ?? 0), 0);
    // moments of the normal distribution: 11!! = 10395
    expect(twelfth / 10395).toBeCloseTo(1, 12);
  });

  test("Legendre rules of 2 to 20 points integrate u^(2n-1) to 1/(2n)", () => {
    for (let n = 2; n <= 20; n++) {
      const { points, weights } = gaussLegendre(n);
      const power = points.reduce((sum, u, i) => sum + u ** (2 * n - 1) * (weights[i] ?? 0), 0);
      expect(power * 2 * n).toBeCloseTo(1, 11);
    }
    expect(() => gaussHermite(0)).toThrow("1 to 64");
  });
});

describe("where first-order propagation fails (JCGM 101:2008)", () => {
  test(`9.2.3: four rectangular inputs sum to u 2.00 with ±3.88, not ±3.92 (seed ${seed})`, () => {
    const random = seeded(seed);
    const one = (): number => Math.sqrt(12) * (random.uniform() - 0.5);
    const sum = sample(() => one() + one() + one() + one(), draws);
    expect(sum.deviation).toBeCloseTo(2, 1);
    const { lo, hi } = shortestInterval(sum, 0.95);
    expect((hi - lo) / 2).toBeCloseTo(3.88, 1);
  });

  test(`9.2.4: one rectangular input of u 10 rules three of u 1: u 10.1, ±17.0, where linear says ±19.9 (seed ${seed})`, () => {
    const random = seeded(seed);
    const one = (u: number): number => u * Math.sqrt(12) * (random.uniform() - 0.5);
    const sum = sample(() => one(1) + one(1) + one(1) + one(10), draws);
    expect(Math.abs(sum.deviation - Math.sqrt(103))).toBeLessThan(0.03);
    const { lo, hi } = shortestInterval(sum, 0.95);
    expect((hi - lo) / 2).toBeCloseTo(17, 0);
    const linear = 1.96 * uncertainty(estimate(0, { a: 1, b: 1, c: 1, d: 10 }));
    expect(linear).toBeCloseTo(19.9, 1);
    const wide = between(-10 * Math.sqrt(3), 10 * Math.sqrt(3), 3);
    const small = between(-Math.sqrt(3), Math.sqrt(3), 3);
    const grid = momentsOverGrid((x) => x.reduce((total, value) => total + value, 0), [small, small, small, wide]);
    expect(grid.deviation).toBeCloseTo(10.149, 3);
  });

  test(`9.3: a mass in air has u 0.0754 mg and [1.0834, 1.3825], where first order says 0.0539 (seed ${seed})`, () => {
    const mass = (reference: number, added: number, air: number, weight: number, standard: number): number =>
      (reference + added) * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000;
    // the sensitivities to the three densities vanish at their middles
    const firstOrder = uncertainty(estimate(0, { reference: 0.05, added: 0.02 }));
    expect(firstOrder).toBeCloseTo(0.0539, 4);
    const grid = momentsOverGrid(
      ([a = 0, b = 0, c = 0, d = 0, e = 0]) => mass(a, b, c, d, e),
      [
        normal(100_000, 0.05, 3),
        normal(1.234, 0.02, 3),
        between(1.1, 1.3, 3),
        between(7000, 9000, 3),
        between(7950, 8050, 3),
      ],
    );
    expect(grid.mean).toBeCloseTo(1.234, 4);
    expect(grid.deviation).toBeCloseTo(0.0754, 3);
    const random = seeded(seed);
    const rectangular = (lo: number, hi: number): number => lo + (hi - lo) * random.uniform();
    const drawn = sample(
      () =>
        mass(
          100_000 + 0.05 * random.normal(),
          1.234 + 0.02 * random.normal(),
          rectangular(1.1, 1.3),
          rectangular(7000, 9000),
          rectangular(7950, 8050),
        ),
      draws,
    );
    expect(Math.abs(drawn.deviation - 0.0754)).toBeLessThan(0.0003);
    const { lo, hi } = shortestInterval(drawn, 0.95);
    expect(lo).toBeCloseTo(1.0834, 2);
    expect(hi).toBeCloseTo(1.3825, 2);
  });

  test.each([
    [0, 50, 50, 0, 0, 150],
    [0.01, 150, 112, 100, 0, 367],
    [0.05, 2551, 502, 500, 1590, 3543],
  ])(
    `9.4: x1² + x2² at x1 = %d has mean %d, u %d, first order %d, 95 %% [%d, %d] in 1e-6 (seed ${seed})`,
    (x1, mean, u, linear, lo, hi) => {
      const power = (rule: readonly number[]): number => 1e6 * rule.reduce((sum, x) => sum + x * x, 0);
      const grid = momentsOverGrid(power, [normal(x1, 0.005, 3), normal(0, 0.005, 3)]);
      // the printed 2551 is one drawing of 50 + 2500; the mean is x1² + x2² + 2 u²
      expect(Math.abs(grid.mean - mean)).toBeLessThan(1.5);
      expect(Math.abs(grid.deviation - u)).toBeLessThan(0.9);
      const first = estimate(x1, { x1: 0.005 });
      expect(1e6 * uncertainty(scale(multiply(first, first), 1))).toBeCloseTo(linear, 6);
      const random = seeded(seed);
      const drawn = sample(() => power([x1 + 0.005 * random.normal(), 0.005 * random.normal()]), draws);
      const interval = shortestInterval(drawn, 0.95);
      expect(Math.abs(interval.lo - lo)).toBeLessThan(12);
      expect(Math.abs(interval.hi - hi)).toBeLessThan(12);
    },
  );

  test("GUM H.1.7: with the second-order terms of δα θ and α δθ the end gauge has u 34 nm instead of 32", () => {
    const root = Math.sqrt(3);
    const grid = momentsOverGrid(
      ([expansionDifference = 0, theta = 0, expansion = 0, temperatureDifference = 0]) =>
        50_000_623 * (expansionDifference * theta + expansion * temperatureDifference),
      [normal(0, 1e-6 / root, 3), normal(-0.1, 0.41, 3), normal(11.5e-6, 2e-6 / root, 3), normal(0, 0.05 / root, 3)],
    );
    expect(Math.hypot(25, 9.7, grid.deviation)).toBeCloseTo(34, 0);
  });
});

describe("rated values", () => {
  const tolerance = { nominal: 2400, lo: 2160, hi: 2520, spread: "tolerance" } as const;
  const range = { nominal: Math.sqrt(30e6), lo: 2000, hi: 15000, spread: "range" } as const;

  test("the median is nominal, and 2.3 % lie beyond either limit of a tolerance", () => {
    expect(quantileOf(tolerance, 0.5)).toBe(2400);
    expect(quantileOf(range, 0.5)).toBeCloseTo(range.nominal, 8);
    // P(Z < -2) = 0.02275
    expect(quantileOf(tolerance, 0.022750131948179209)).toBeCloseTo(2160, 9);
    expect(quantileOf(tolerance, 1 - 0.022750131948179209)).toBeCloseTo(2520, 9);
    expect(quantileOf(range, 0)).toBe(2000);
    expect(quantileOf(range, 1)).toBeCloseTo(15000, 8);
  });

  test("five points give the mean of a log-uniform range, 13000 / ln 7.5, to 1e-6", () => {
    const { points, weights } = quadrature(range, 5);
    const mean = points.reduce((sum, x, i) => sum + x * (weights[i] ?? 0), 0);
    expect(mean / (13000 / Math.log(7.5))).toBeCloseTo(1, 6);
    expect(quadrature({ nominal: 5, lo: 5, hi: 5, spread: "exact" }, 5)).toEqual({ points: [5], weights: [1] });
  });

  test(`drawn values follow the quantiles: a quarter lies below the first quartile (seed ${seed})`, () => {
    for (const rated of [tolerance, range]) {
      const random = seeded(seed).fork(rated.spread);
      const drawn = sample(() => draw(rated, random), 40_000);
      const below = drawn.sorted.filter((x) => x < quantileOf(rated, 0.25)).length / drawn.sorted.length;
      expect(Math.abs(below - 0.25)).toBeLessThan(0.01);
    }
  });
});

describe("seeded chance", () => {
  test("the same seed gives the same numbers, another seed or a fork others, and a fork does not move its parent", () => {
    const a = seeded(1);
    const b = seeded(1);
    const forked = b.fork("meter").uniform();
    const first = Array.from({ length: 5 }, () => a.uniform());
    expect(Array.from({ length: 5 }, () => b.uniform())).toEqual(first);
    expect(seeded(2).uniform()).not.toBe(first[0]);
    expect(first).not.toContain(forked);
    expect(seeded(1).fork("meter").uniform()).toBe(forked);
  });

  test(`100 000 uniform and normal numbers have the right moments, and picks follow their weights (seed ${seed})`, () => {
    const random = seeded(seed);
    const uniform = sample(() => random.uniform(), 100_000);
    expect(Math.abs(uniform.mean - 0.5)).toBeLessThan(0.004);
    expect(Math.abs(uniform.deviation - 1 / Math.sqrt(12))).toBeLessThan(0.002);
    expect(uniform.sorted[0]).toBeGreaterThanOrEqual(0);
    expect(uniform.sorted.at(-1)).toBeLessThan(1);
    const normals = sample(() => random.normal(), 100_000);
    expect(Math.abs(normals.mean)).toBeLessThan(0.013);
    expect(Math.abs(normals.deviation - 1)).toBeLessThan(0.01);
    const counts = [0, 0, 0];
    for (let i = 0; i < 60_000; i++) {
      const index = random.pick([1, 0, 3]);
      counts[index] = (counts[index] ?? 0) + 1;
    }
    expect(counts[1]).toBe(0);
    expect(Math.abs((counts[0] ?? 0) / 60_000 - 0.25)).toBeLessThan(0.01);
    expect(() => random.pick([0, 0])).toThrow("above zero");
  });
});
