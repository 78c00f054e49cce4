import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { correlated } from "./correlated.ts";
import {
  add,
  applyFunction,
  correlation,
  divide,
  type Estimate,
  estimate,
  exactly,
  multiply,
  scale,
  subtract,
  uncertainty,
} from "./estimate.ts";
import { correlationOfPairs, effectiveDegrees, repeated } from "./repeated.ts";

const seed = 20261125;

describe("named error sources", () => {
  test("the gain error of one meter cancels in a difference of equal readings and doubles in their sum", () => {
    const a = estimate(26.4, { "meter/gain": 0.15, "meter/counts 1": 0.1 });
    const b = estimate(26.4, { "meter/gain": 0.15, "meter/counts 2": 0.1 });
    expect(uncertainty(subtract(a, b))).toBeCloseTo(Math.hypot(0.1, 0.1), 12);
    expect(uncertainty(add(a, b))).toBeCloseTo(Math.hypot(0.3, 0.1, 0.1), 12);
    expect(correlation(a, b)).toBeCloseTo(0.15 ** 2 / (0.15 ** 2 + 0.1 ** 2), 12);
  });

  test("x − x and x / x have no uncertainty, 0 and 1", () => {
    const x = estimate(7, { a: 0.3, b: 0.4 });
    expect([subtract(x, x).value, uncertainty(subtract(x, x))]).toEqual([0, 0]);
    expect([divide(x, x).value, uncertainty(divide(x, x))]).toEqual([1, 0]);
    expect(uncertainty(exactly(3))).toBe(0);
  });

  test(`parts are the slopes that small steps find, for sums, products, quotients and multiples (seed ${seed})`, () => {
    const number = fc.double({ min: 0.5, max: 5, noNaN: true });
    const operations: readonly ((a: Estimate, b: Estimate) => Estimate)[] = [
      add,
      subtract,
      multiply,
      divide,
      (a, b) => add(scale(a, 3), multiply(b, b)),
    ];
    fc.assert(
      fc.property(number, number, fc.constantFrom(...operations), (a, b, operate) => {
        const result = operate(estimate(a, { a: 1 }), estimate(b, { b: 1 }));
        const h = 1e-6;
        const at = (x: number, y: number): number => operate(exactly(x), exactly(y)).value;
        expect(result.parts.get("a")).toBeCloseTo((at(a + h, b) - at(a - h, b)) / (2 * h), 6);
        expect(result.parts.get("b")).toBeCloseTo((at(a, b + h) - at(a, b - h)) / (2 * h), 6);
      }),
      { seed },
    );
  });

  test("R = V/I of 0.1 V (u 1 mV) and 15 mA (u 0.5 mA) is 6.67(23) Ω", () => {
    // Source: worked example of the open library GTC (Measurement Standards Laboratory of New Zealand)
    const r = divide(estimate(0.1, { v: 0.001 }), estimate(0.015, { i: 0.0005 }));
    expect(r.value).toBeCloseTo(6.6667, 4);
    expect(uncertainty(r)).toBeCloseTo(0.232, 4);
  });

  test("five mass contributions of 22.5, 8.66, 14.4, 5.77 and 5.77 mg combine to 29.24 mg", () => {
    // Source: EA-4/02, example S2 (printed 29.3 by its own rounding)
    const mass = estimate(0, { standard: 22.5, drift: 8.66, difference: 14.4, eccentricity: 5.77, air: 5.77 });
    expect(uncertainty(mass)).toBeCloseTo(29.24, 2);
  });
});

describe("repeated readings", () => {
  test("twenty readings have mean 100.145, s 1.489 and s of the mean 0.333 °C", () => {
    // Source: GUM (JCGM 100:2008), 4.4.3 and table 1
    const readings = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const { mean, deviation, uncertainty: u, degrees } = repeated(readings);
    expect(mean).toBeCloseTo(100.145, 3);
    expect(deviation).toBeCloseTo(1.489, 3);
    expect(u).toBeCloseTo(0.333, 3);
    expect(degrees).toBe(19);
  });

  test("relative uncertainties 0.25, 0.57 and 0.82 % of 10, 5 and 15 readings: 1.03 %, 19.0 effective degrees", () => {
    // Source: GUM G.4.1, example. Unrounded it is 18.9987, so truncating it for a table would give 18, not the printed 19
    const parts = [
      { u: 0.25, degrees: 9 },
      { u: 0.57, degrees: 4 },
      { u: 0.82, degrees: 14 },
    ];
    expect(Math.hypot(...parts.map(({ u }) => u))).toBeCloseTo(1.03, 2);
    const degrees = effectiveDegrees(parts);
    expect(degrees).toBeCloseTo(18.9987, 4);
    expect(Math.floor(degrees)).toBe(18);
    expect(Math.round(10 * degrees) / 10).toBe(19);
  });
});

describe("GUM H.1, calibration of an end gauge", () => {
  // Source: GUM H.1, table H.1; lengths in nanometres
  const standard = estimate(50_000_623, { standard: 25 });
  const difference = estimate(215, { repeat: 5.8, "comparator random": 3.9, "comparator systematic": 6.7 });
  const expansion = estimate(11.5e-6, { expansion: 2e-6 / Math.sqrt(3) });
  const expansionDifference = estimate(0, { "expansion difference": 1e-6 / Math.sqrt(3) });
  const temperature = estimate(-0.1, { "mean temperature": 0.2, cycle: 0.5 / Math.SQRT2 });
  const temperatureDifference = estimate(0, { "temperature difference": 0.05 / Math.sqrt(3) });
  const correction = add(multiply(expansionDifference, temperature), multiply(expansion, temperatureDifference));
  const length = subtract(add(standard, difference), multiply(standard, correction));

  test("the length is 50.000 838 mm with u 32 nm, of which 25, 9.7, 2.9 and 16.6 nm, and nothing from θ and α", () => {
    expect(length.value).toBe(50_000_838);
    expect(uncertainty(length)).toBeCloseTo(31.66, 1);
    expect(uncertainty(difference)).toBeCloseTo(9.7, 1);
    const part = (name: string): number => Math.abs(length.parts.get(name) ?? Number.NaN);
    expect(part("standard")).toBeCloseTo(25, 3);
    expect(part("expansion difference")).toBeCloseTo(2.9, 1);
    expect(part("temperature difference")).toBeCloseTo(16.6, 1);
    expect(part("mean temperature")).toBe(0);
    expect(part("expansion")).toBe(0);
  });

  test("effective degrees are 25.6 for the comparison and 16 for the length", () => {
    const compared = effectiveDegrees([
      { u: 5.8, degrees: 24 },
      { u: 3.9, degrees: 5 },
      { u: 6.7, degrees: 8 },
    ]);
    expect(compared).toBeCloseTo(25.6, 0);
    const all = effectiveDegrees([
      { u: 25, degrees: 18 },
      { u: uncertainty(difference), degrees: compared },
      { u: length.parts.get("expansion difference") ?? Number.NaN, degrees: 50 },
      { u: length.parts.get("temperature difference") ?? Number.NaN, degrees: 2 },
    ]);
    // printed 16.7 from u_c² rounded to 1002; unrounded 16.75; a table is entered at 16 either way
    expect(all).toBeCloseTo(16.75, 2);
    expect(Math.floor(all)).toBe(16);
  });
});

describe("GUM H.2, simultaneous resistance and reactance", () => {
  // Source: GUM H.2, table H.2 (five simultaneous readings)
  const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
  const amps = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3];
  const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const impedance = ([v, i, phi]: readonly Estimate[]): readonly [Estimate, Estimate, Estimate] => {
    if (v === undefined || i === undefined || phi === undefined) throw new Error("three inputs");
    const z = divide(v, i);
    const cos = applyFunction(Math.cos(phi.value), [[phi, -Math.sin(phi.value)]]);
    const sin = applyFunction(Math.sin(phi.value), [[phi, Math.cos(phi.value)]]);
    return [multiply(z, cos), multiply(z, sin), z];
  };
  const rows = [volts, amps, radians];
  const found = rows.map(repeated);
  const matrix = rows.map((a) => rows.map((b) => (a === b ? 1 : correlationOfPairs(a, b))));

  test("means 4.9990 V, 19.6610 mA, 1.04446 rad, correlations -0.36, 0.86, -0.65", () => {
    expect(found.map(({ mean }) => mean)).toEqual([
      expect.closeTo(4.999, 6),
      expect.closeTo(19.661e-3, 9),
      expect.closeTo(1.04446, 6),
    ]);
    expect(found.map(({ uncertainty: u }) => u)).toEqual([
      expect.closeTo(0.0032, 4),
      expect.closeTo(0.0095e-3, 7),
      expect.closeTo(0.00075, 5),
    ]);
    expect(matrix[0]?.[1]).toBeCloseTo(-0.355, 3);
    expect(matrix[0]?.[2]).toBeCloseTo(0.858, 3);
    expect(matrix[1]?.[2]).toBeCloseTo(-0.645, 3);
  });

  test("R 127.732(71), X 219.847(296), Z 254.260(236) Ω with correlations -0.588, -0.485, 0.993", () => {
    const inputs = correlated(
      "set",
      found.map(({ mean }) => mean),
      found.map(({ uncertainty: u }) => u),
      matrix,
    );
    const [r, x, z] = impedance(inputs);
    expect([r.value, x.value, z.value].map((value) => value.toFixed(3))).toEqual(["127.732", "219.847", "254.260"]);
    // u(X) is 0.29558 unrounded; copies that print 0.295 cut it off
    expect([r, x, z].map((value) => uncertainty(value).toFixed(3))).toEqual(["0.071", "0.296", "0.236"]);
    expect(correlation(r, x)).toBeCloseTo(-0.588, 3);
    expect(correlation(r, z)).toBeCloseTo(-0.485, 3);
    expect(correlation(x, z)).toBeCloseTo(0.993, 3);
  });

  test("with the rounded inputs of the guide: u 0.070, 0.30 and 0.24 Ω, correlations -0.59, -0.49, 0.99", () => {
    const [r, x, z] = impedance(
      correlated(
        "set",
        [4.999, 19.661e-3, 1.04446],
        [0.0032, 0.0095e-3, 0.00075],
        [
          [1, -0.36, 0.86],
          [-0.36, 1, -0.65],
          [0.86, -0.65, 1],
        ],
      ),
    );
    expect(uncertainty(r)).toBeCloseTo(0.07, 2);
    expect(uncertainty(x)).toBeCloseTo(0.3, 2);
    expect(uncertainty(z)).toBeCloseTo(0.24, 2);
    expect(correlation(r, x)).toBeCloseTo(-0.59, 2);
    expect(correlation(r, z)).toBeCloseTo(-0.49, 2);
    expect(correlation(x, z)).toBeCloseTo(0.99, 2);
  });

  test("without the correlations u(R) is 0.195 Ω, 2.7 times too large, u(X) 0.201 and u(Z) 0.204", () => {
    const loose = found.map(({ mean, uncertainty: u }, i) => estimate(mean, { [`input ${i}`]: u }));
    const [r, x, z] = impedance(loose);
    expect(uncertainty(r)).toBeCloseTo(0.195, 3);
    expect(uncertainty(x)).toBeCloseTo(0.201, 3);
    expect(uncertainty(z)).toBeCloseTo(0.204, 3);
    expect(uncertainty(r) / 0.071).toBeGreaterThan(2.7);
  });

  test("a matrix that no readings could give throws", () => {
    const wrong = [
      [1, 0.9, -0.9],
      [0.9, 1, 0.9],
      [-0.9, 0.9, 1],
    ];
    expect(() => correlated("set", [1, 1, 1], [1, 1, 1], wrong)).toThrow("positive semidefinite");
    expect(() =>
      correlated(
        "set",
        [1, 1],
        [1, 1],
        [
          [1, 0.5],
          [0.4, 1],
        ],
      ),
    ).toThrow("symmetric");
  });
});
