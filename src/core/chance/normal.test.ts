import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { erf, erfc, erfcx } from "./error-function.ts";
import { logAdd, logOneMinusExp, logSumExp, normaliseLogs } from "./logs.ts";
import {
  logNormalBand,
  logNormalCdf,
  logNormalInterval,
  logNormalSf,
  normalCdf,
  normalQuantile,
  normalSf,
} from "./normal.ts";

const seed = 20261125;

/** Largest relative difference allowed, in double-precision steps. */
function expectWithin(found: number, wanted: number, relative: number): void {
  expect(Math.abs(found - wanted), `${found} for ${wanted}`).toBeLessThanOrEqual(relative * Math.abs(wanted));
}

describe("error function to 1e-15 (worked out with forty digits from its integral)", () => {
  test.each([
    [0.1, 0.1124629160182849, 0.887537083981715, 0.8964569799691267],
    [0.46875, 0.492613473217938, 0.507386526782062, 0.6320696892495561],
    [0.5, 0.5204998778130465, 0.4795001221869535, 0.6156903441929259],
    [1, 0.8427007929497149, 0.1572992070502851, 0.427583576155807],
    [2.5, 0.999593047982555, 0.000406952017444959, 0.2108063640611436],
    [4, 0.9999999845827421, 1.541725790028002e-8, 0.1369994576250614],
    [5, 0.9999999999984626, 1.537459794428035e-12, 0.1107046377330686],
    [10, 1, 2.088487583762545e-45, 0.05614099274382259],
    [26, 1, 5.663192408856143e-296, 0.02168358485056291],
  ])("at %d: erf, erfc and scaled erfc", (x, wanted, complement, scaled) => {
    expectWithin(erf(x), wanted, 1e-15);
    expectWithin(erfc(x), complement, 1e-15);
    expectWithin(erfcx(x), scaled, 1e-15);
    expect(erf(-x)).toBe(-erf(x));
    expectWithin(erfc(-x), 2 - complement, 1e-15);
  });

  test("the scaled complement stays finite at 1e9 and is infinite at -30", () => {
    expectWithin(erfcx(1e9), 1 / (1e9 * Math.sqrt(Math.PI)), 1e-15);
    expect(erfcx(-30)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("normal distribution far out (worked out with forty digits)", () => {
  test.each([
    [-10, -7.619853024160525e-24],
    [-1, -0.1727537790234499],
    [0, -Math.LN2],
    [1, -1.841021645009264],
    [5, -15.06499839398873],
    [10, -53.23128515051247],
    [40, -804.6084420137538],
    [100, -5005.524208694205],
    [1000, -500007.8266948122],
  ])("ln P(Z > %d)", (z, wanted) => {
    expectWithin(logNormalSf(z), wanted, 5e-15);
    expectWithin(logNormalCdf(-z), wanted, 5e-15);
  });

  test.each([
    [-1, 1, -0.3817151463021261],
    [5, 5.01, -18.04902101327496],
    [40, 40.1, -804.6267881787521],
    [-7.2, -6.9, -26.79851895947723],
    [0, 8, -0.6931471805599466],
    [-0.05, 0.05, -3.221940223426453],
    [-3, 30, -0.001350809964748194],
  ])("ln P(%d < Z < %d)", (a, b, wanted) => {
    expectWithin(logNormalInterval(a, b), wanted, 1e-13);
    expectWithin(logNormalInterval(-b, -a), wanted, 1e-13);
  });

  test("a band a millionth wide at 3 does not cancel, and an empty interval has no chance", () => {
    expectWithin(logNormalBand(3.0000005, 1e-6), -19.23445059116874, 1e-14);
    expect(logNormalInterval(2, 2)).toBe(Number.NEGATIVE_INFINITY);
    expect(logNormalInterval(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)).toBeCloseTo(0, 15);
  });

  test(`neighbouring intervals add up, wherever they meet (seed ${seed})`, () => {
    const z = fc.double({ min: -38, max: 38, noNaN: true });
    const width = fc.double({ min: 1e-3, max: 5, noNaN: true });
    fc.assert(
      fc.property(z, width, width, (a, first, second) => {
        const whole = logNormalInterval(a, a + first + second);
        const pieces = logAdd(logNormalInterval(a, a + first), logNormalInterval(a + first, a + first + second));
        expect(Math.abs(pieces - whole)).toBeLessThan(1e-12 * Math.max(1, Math.abs(whole)));
      }),
      { seed, numRuns: 2000 },
    );
  });

  test("both ways of working out a band agree where they meet, at a width of 0.1", () => {
    for (const middle of [0, 0.3, 0.7, 0.99]) {
      const narrow = logNormalBand(middle, 0.1 - 1e-12);
      const wide = logNormalBand(middle, 0.1 + 1e-12);
      expect(Math.abs(narrow - wide)).toBeLessThan(1e-10);
    }
  });

  test(`the quantile undoes the distribution in either tail (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.double({ min: -36, max: 8, noNaN: true }), (z) => {
        const tail = z < 0 ? normalCdf(z) : normalSf(z);
        expect(normalQuantile(tail)).toBeCloseTo(-Math.abs(z), 10);
      }),
      { seed },
    );
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    expect(() => normalQuantile(1.2)).toThrow("0..1");
  });

  test.each([
    [0.8, 0.84],
    [0.9, 1.28],
    [0.95, 1.64],
    [0.99, 2.33],
    [0.999, 3.09],
  ])("z of %d is %d (JCGM 106:2012, table 1, from memory)", (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 2);
  });
});

describe("weights as logarithms", () => {
  test("terms that underflow on their own sum exactly: two of e^-800 are e^(-800 + ln 2)", () => {
    expect(logSumExp([-800, -800])).toBeCloseTo(-800 + Math.LN2, 12);
    expect(logSumExp([])).toBe(Number.NEGATIVE_INFINITY);
    expect(logSumExp([Number.NEGATIVE_INFINITY, -5])).toBe(-5);
  });

  test("a hundred thousand small terms beside a large one keep fifteen digits", () => {
    const logs = new Float64Array(100_001).fill(Math.log(1e-12));
    logs[0] = 0;
    expectWithin(Math.expm1(logSumExp(logs)), 1e-7, 1e-8);
  });

  test("normalising makes them sum to 1 and gives the factor back", () => {
    const logs = Float64Array.of(-1000, -1001, -1002);
    const total = normaliseLogs(logs);
    expect(total).toBeCloseTo(-1000 + Math.log(1 + Math.exp(-1) + Math.exp(-2)), 12);
    expect(logs.reduce((sum, x) => sum + Math.exp(x), 0)).toBeCloseTo(1, 15);
  });

  test("ln(1 − e^x) keeps its digits at both ends: x = -1e-10 and x = -50", () => {
    expectWithin(logOneMinusExp(-1e-10), Math.log(1e-10) - 0.5e-10, 1e-15);
    expectWithin(logOneMinusExp(-50), -Math.exp(-50), 1e-15);
  });
});
