import fc from "fast-check";
// @ts-expect-error the package ships no types
import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { betaCdf, betaQuantile, betaSf, logBeta } from "./beta.ts";
import { binomialLogPmf, clopperPearson } from "./binomial.ts";
import { gammaCdf, gammaQuantile, gammaSf, logGamma } from "./gamma.ts";
import { studentQuantile, studentSf } from "./student.ts";

/** The general statistics library jstat, as the outside reference. */
const reference: {
  readonly beta: { cdf(x: number, a: number, b: number): number; inv(p: number, a: number, b: number): number };
  readonly gamma: {
    cdf(x: number, shape: number, scale: number): number;
    inv(p: number, a: number, s: number): number;
  };
  readonly studentt: { inv(p: number, degrees: number): number };
  readonly binomial: { pdf(k: number, n: number, p: number): number };
  gammaln(x: number): number;
} = jstat;

const seed = 20261125;
const shape = fc.double({ min: -1, max: 2.5, noNaN: true }).map((exponent) => 10 ** exponent);
const chance = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

function expectWithin(found: number, wanted: number, relative: number): void {
  expect(Math.abs(found - wanted), `${found} for ${wanted}`).toBeLessThanOrEqual(relative * Math.abs(wanted));
}

describe("gamma function and distribution", () => {
  test("Γ(1/2) is √π, Γ(11) is 10! and the recurrence holds down to 1e-5", () => {
    expectWithin(logGamma(0.5), 0.5 * Math.log(Math.PI), 1e-14);
    expectWithin(logGamma(11), Math.log(3628800), 1e-15);
    for (const x of [1e-5, 0.3, 4.2, 9.5, 77]) {
      expect(Math.abs(logGamma(x + 1) - logGamma(x) - Math.log(x))).toBeLessThan(1e-13);
    }
    expect(() => logGamma(0)).toThrow("above zero");
  });

  test("shape 1 is the exponential distribution, both tails, in closed form", () => {
    for (const x of [1e-9, 0.5, 1, 30, 600]) {
      expectWithin(gammaCdf(x, 1), -Math.expm1(-x), 1e-14);
      expectWithin(gammaSf(x, 1), Math.exp(-x), 1e-13);
      expectWithin(gammaQuantile(-Math.expm1(-0.3), 1, 2), 0.15, 1e-13);
    }
  });

  test("the median of shape 10000 is 9999.66667 (a known library gives 10000.66)", () => {
    // Source: median = k − 1/3 + 8/(405 k) + ..., Choi, Proc. Amer. Math. Soc. 121 (1994)
    expectWithin(gammaQuantile(0.5, 10000), 10000 - 1 / 3 + 8 / (405 * 10000), 1e-13);
  });

  test(`agrees with jstat to 1e-8, and quantile undoes distribution to 1e-9 (seed ${seed})`, () => {
    fc.assert(
      fc.property(shape, chance, (a, p) => {
        const x = gammaQuantile(p, a);
        const slack = p < 0.5 ? Math.abs(gammaCdf(x, a) / p - 1) : Math.abs(gammaSf(x, a) / (1 - p) - 1);
        expect(slack).toBeLessThan(1e-9);
        if (x > 1e-100) expectWithin(gammaCdf(x, a), reference.gamma.cdf(x, a, 1), 1e-8);
        expect(Math.abs(logGamma(a) - reference.gammaln(a))).toBeLessThan(1e-9 * Math.max(1, a));
      }),
      { seed, numRuns: 400 },
    );
  });
});

describe("beta distribution", () => {
  test("Beta(1, n) and Beta(a, 1) in closed form, up to n of 100 000", () => {
    for (const p of [1e-12, 0.025, 0.5, 0.975]) {
      for (const n of [1, 3, 100_000]) expectWithin(betaQuantile(p, 1, n).x, -Math.expm1(Math.log1p(-p) / n), 1e-12);
      for (const a of [0.3, 2, 5000]) expectWithin(betaQuantile(p, a, 1).x, p ** (1 / a), 1e-12);
    }
    expectWithin(Math.exp(logBeta(2, 3)), 1 / 12, 1e-14);
    expectWithin(logBeta(1, 1e5), -Math.log(1e5), 1e-14);
  });

  test("Beta(80, 0.2) lies too close to 1 for a double: the complement at p = 0.999999 is 8.2e-33", () => {
    const { x, complement } = betaQuantile(0.999999, 80, 0.2);
    expect(x).toBe(1);
    expect(complement).toBeGreaterThan(8e-33);
    // the upper tail of what is left over, as a plain power law: I ≈ y^b / (b B(a, b))
    expectWithin(complement ** 0.2 / (0.2 * Math.exp(logBeta(80, 0.2))), 1e-6, 1e-9);
  });

  test(`agrees with jstat to 1e-8, quantile undoes distribution, x + complement is 1 (seed ${seed})`, () => {
    fc.assert(
      fc.property(shape, shape, chance, (a, b, p) => {
        const { x, complement } = betaQuantile(p, a, b);
        expect(Math.abs(x + complement - 1)).toBeLessThan(1e-15);
        const back = x < complement ? betaCdf(x, a, b) / p : betaCdf(complement, b, a) / (1 - p);
        // far out towards either end one step of x moves the chance by more than the tolerance
        if (x > 1e-12 && complement > 1e-12) expect(Math.abs(back - 1)).toBeLessThan(1e-8);
        if (x > 1e-6 && complement > 1e-6) {
          expect(Math.abs(betaCdf(x, a, b) - reference.beta.cdf(x, a, b))).toBeLessThan(1e-8);
          expect(Math.abs(betaCdf(x, a, b) + betaSf(x, a, b) - 1)).toBeLessThan(1e-13);
        }
      }),
      { seed, numRuns: 600 },
    );
  });

  test("shapes so small that nearly all lies at an end give the end, not a stray number", () => {
    expect(betaQuantile(0.5, 0.001, 5)).toEqual({ x: 0, complement: 1 });
    expect(betaQuantile(0, 2, 2).x).toBe(0);
    expect(betaQuantile(1, 2, 2).complement).toBe(0);
  });
});

describe("Student's distribution", () => {
  test.each([
    [0.95, 16, 2.12],
    [0.99, 16, 2.92],
    [0.95, 19, 2.09],
    [0.95, 1, 12.71],
    [0.99, 2, 9.92],
    [0.95, 5, 2.57],
  ])("coverage %d at %d degrees is t = %d (GUM table G.2)", (coverage, degrees, t) => {
    expect(studentQuantile((1 + coverage) / 2, degrees)).toBeCloseTo(t, 2);
  });

  test("U95 of GUM G.4.1 is 2.09 × 1.03 % = 2.2 %, and U99 of H.1 93 nm as printed from the rounded 32 nm, 92.5 unrounded", () => {
    const t95 = studentQuantile(0.975, 19);
    expect(t95 * 1.03).toBeCloseTo(2.2, 1);
    const t99 = studentQuantile(0.995, 16);
    expect(Math.round(Number(t99.toFixed(2)) * 32)).toBe(93);
    expect(t99 * 31.66).toBeCloseTo(92.5, 1);
  });

  test(`1 degree is the Cauchy distribution, 2 degrees have a closed form, others agree with jstat to 1e-7 (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.501, max: 0.9999, noNaN: true }),
        fc.integer({ min: 3, max: 200 }),
        (p, degrees) => {
          expectWithin(studentQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)), 1e-10);
          expectWithin(studentQuantile(p, 2), ((2 * p - 1) * Math.SQRT2) / Math.sqrt(1 - (2 * p - 1) ** 2), 1e-10);
          expectWithin(studentQuantile(p, degrees), reference.studentt.inv(p, degrees), 1e-7);
          expectWithin(studentSf(studentQuantile(p, degrees), degrees), 1 - p, 1e-10);
        },
      ),
      { seed, numRuns: 200 },
    );
  });
});

describe("operations good and bad", () => {
  test(`binomial chances sum to 1 and agree with jstat (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0.001, max: 0.999, noNaN: true }), (n, p) => {
        let sum = 0;
        for (let k = 0; k <= n; k++) {
          const mass = Math.exp(binomialLogPmf(k, n, p));
          expect(Math.abs(mass - reference.binomial.pdf(k, n, p))).toBeLessThan(1e-11);
          sum += mass;
        }
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
      }),
      { seed, numRuns: 100 },
    );
  });

  test("a contact that works nine times in ten shows 20 of 20 with chance 0.1216, 19 of 20 with 0.2702", () => {
    expectWithin(Math.exp(binomialLogPmf(20, 20, 0.9)), 0.9 ** 20, 1e-14);
    expectWithin(Math.exp(binomialLogPmf(19, 20, 0.9)), 20 * 0.9 ** 19 * 0.1, 1e-14);
    expect(binomialLogPmf(3, 20, 0)).toBe(Number.NEGATIVE_INFINITY);
    expect(binomialLogPmf(20, 20, 1)).toBe(0);
    expect(() => binomialLogPmf(1, 2, 1.5)).toThrow("no binomial chance");
  });

  test.each([
    [0, 10, 0, 0.3085],
    [1, 10, 0.0025, 0.445],
    [2, 10, 0.0252, 0.5561],
    [0, 20, 0, 0.1684],
    [1, 20, 0.0013, 0.2487],
    [0, 30, 0, 0.1157],
    [3, 30, 0.0211, 0.2653],
    // the example of R's binom.test, from memory
    [682, 925, 0.7077, 0.7654],
  ])("%d bad of %d: 95 %% bounds %d to %d (classical table values)", (bad, n, lo, hi) => {
    const bounds = clopperPearson(bad, n, 0.95);
    expect(bounds.lo).toBeCloseTo(lo, 4);
    expect(bounds.hi).toBeCloseTo(hi, 4);
  });

  test("1 failure in 30: reliability 0.82783 to 0.99916; 4 of 20 at 90 %: 0.0714 to 0.4010", () => {
    // Source: documentation of the open Python package reliability, "One sample proportion"; NIST/SEMATECH e-Handbook 7.2.4.2
    const one = clopperPearson(1, 30, 0.95);
    expectWithin(1 - one.hi, 0.8278305443665873, 1e-13);
    expectWithin(1 - one.lo, 0.9991564290733695, 1e-13);
    const four = clopperPearson(4, 20, 0.9);
    expect(four.lo).toBeCloseTo(0.071354, 6);
    expect(four.hi).toBeCloseTo(0.401028, 6);
  });
});
