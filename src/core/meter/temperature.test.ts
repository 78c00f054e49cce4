import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ohmsAt20, windingFactor, windingRise } from "./copper.ts";
import { type Ntc, ntcDegrees, ntcModelError, ntcOhms } from "./ntc.ts";
import { pt100Degrees, pt100Ohms, pt100Tolerance } from "./pt100.ts";

const seed = 20261125;

describe("copper", () => {
  test("rises by 28 % from 20 to 90 °C (IEC 60028: exactly 1.2751 by α 0.00393)", () => {
    expect(windingFactor(20, 90)).toBeCloseTo(1.2751, 3);
  });

  test("1/254.5 = 0.0039293 at 20 °C and 1/259.5 = 0.0038536 at 25 °C are its coefficients (1/0.00393 − 20 = 234.45)", () => {
    expect(windingFactor(20, 21) - 1).toBeCloseTo(0.0039293, 7);
    expect(windingFactor(25, 26) - 1).toBeCloseTo(0.0038536, 7);
    expect(1 / 0.00393 - 20).toBeCloseTo(234.45, 2);
  });

  test("a winding of 10.0 Ω cold and 13.0 Ω hot at 25 °C has risen by 77.85 K", () => {
    // Source: rise formula and k = 234.5 of IEC 60335-1 clause 11; worked out
    expect(windingRise({ ohms: 10, roomDegrees: 25 }, { ohms: 13, roomDegrees: 25 })).toBeCloseTo(77.85, 2);
    expect(windingRise({ ohms: 10, roomDegrees: 25 }, { ohms: 13, roomDegrees: 25 }, "aluminium")).toBeCloseTo(75, 9);
  });

  test("a relay coil of 320 Ω at 25 °C has 443.3 Ω at 125 °C, its pick-up of 13.0 V becomes 18.0 V", () => {
    // Source: a relay maker's note on coils and temperature, R1/R0 = (234.5 + T1)/(234.5 + T0)
    expect(320 * windingFactor(25, 125)).toBeCloseTo(443.3, 1);
    expect(13 * windingFactor(25, 125)).toBeCloseTo(18, 1);
  });

  test.each([
    [85, 19.7],
    [100, 20.6],
    [-25, 12.9],
  ])("a pick-up of 16 V at 25 °C is at %d °C %d V", (degrees, volts) => {
    // Source: a relay maker's application note, factor 0.003853/K from 25 °C
    expect(16 * windingFactor(25, degrees)).toBeCloseTo(volts, 1);
  });

  test("90 Ω and 6.5 V at 20 °C are 112.98 Ω and 8.16 V at 85 °C", () => {
    // Source: a relay maker's note with 0.003929/K at 20 °C; 234.5 gives 112.99
    expect(Math.abs(90 * windingFactor(20, 85) - 112.98)).toBeLessThan(0.02);
    expect(6.5 * windingFactor(20, 85)).toBeCloseTo(8.16, 2);
  });

  test("290 Ω at 25 °C has 401.8 Ω at 125 °C; the 403.31 printed in one note is its own slip", () => {
    expect(290 * windingFactor(25, 125)).toBeCloseTo(401.75, 2);
  });

  test("a coil read 112.99 Ω at 85 °C is 90 Ω at 20 °C", () => {
    expect(ohmsAt20(90 * windingFactor(20, 85), 85)).toBeCloseTo(90, 12);
  });
});

describe("Pt100", () => {
  test.each([
    [-200, 18.52],
    [-100, 60.26],
    [-50, 80.31],
    [-20, 92.16],
    [-10, 96.09],
    [0, 100],
    [10, 103.9],
    [50, 119.4],
    [60, 123.24],
    [100, 138.51],
    [140, 153.58],
    [200, 175.86],
    [250, 194.1],
    [400, 247.09],
    [600, 313.71],
    [850, 390.48],
  ])("at %d °C has %d Ω (table of IEC 60751)", (degrees, ohms) => {
    expect(pt100Ohms(degrees)).toBeCloseTo(ohms, 2);
    expect(pt100Degrees(pt100Ohms(degrees))).toBeCloseTo(degrees, 9);
  });

  test("class B may be ±0.8 °C or 0.30 Ω off at 100 °C and ±1.3 °C or 0.48 Ω at 200 °C, class A ±0.35 °C or 0.13 Ω", () => {
    // Source: IEC 60751:2008 as quoted in a table of tolerances
    const inOhms = (grade: "A" | "B", degrees: number): number =>
      pt100Ohms(degrees + pt100Tolerance(grade, degrees)) - pt100Ohms(degrees);
    expect(pt100Tolerance("B", 100)).toBeCloseTo(0.8, 12);
    expect(inOhms("B", 100)).toBeCloseTo(0.3, 2);
    expect(pt100Tolerance("B", 200)).toBeCloseTo(1.3, 12);
    expect(inOhms("B", 200)).toBeCloseTo(0.48, 2);
    expect(pt100Tolerance("A", 100)).toBeCloseTo(0.35, 12);
    expect(inOhms("A", 100)).toBeCloseTo(0.13, 2);
  });
});

describe("NTC", () => {
  const beta = (b: number): Ntc => ({ by: "beta", r25: 10_000, beta: b });

  test.each([
    [-25, 146676],
    [-15, 78875],
    [-5, 44424],
    [5, 26075],
    [15, 15881],
    [25, 10000],
    [35, 6488],
    [45, 4326],
    [55, 2956],
    [65, 2066],
    [75, 1474],
    [85, 1072],
    [95, 793],
    [105, 596],
    [115, 454],
    [125, 351],
  ])("10 kΩ with B 3974 has at %d °C %d Ω within 2 Ω", (degrees, ohms) => {
    // Source: table "R25-10000-B-3974" in the sources of a public real-time operating system
    expect(Math.abs(ntcOhms(beta(3974), degrees) - ohms)).toBeLessThan(2);
  });

  test.each([
    [32_650, 0],
    [10_000, 25],
    [3_603, 49.986],
    [1_000, 87.168],
  ])("three coefficients: %d Ω is %d °C", (ohms, degrees) => {
    // Source: a 10 kΩ family curve, A 1.129148e-3, B 2.34125e-4, C 8.76741e-8; temperatures worked out
    const ntc: Ntc = { by: "three coefficients", a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
    expect(ntcDegrees(ntc, ohms)).toBeCloseTo(degrees, 3);
  });

  test.each([
    [3.265, -0.008],
    [1, 25.006],
    [0.3603, 49.988],
    [0.107, 84.995],
  ])("four coefficients over R/R25 = %d give %d °C", (ratio, degrees) => {
    // Source: the same family curve as 1/T = a + b x + c x² + d x³
    const ntc: Ntc = {
      by: "four coefficients",
      r25: 10_000,
      a: 3.3539438e-3,
      b: 2.5646095e-4,
      c: 2.5158166e-6,
      d: 1.0503069e-7,
    };
    expect(ntcDegrees(ntc, 10_000 * ratio)).toBeCloseTo(degrees, 3);
  });

  test("three coefficient sets sold as 10 kΩ give 24.68, 25.00 and 25.01 °C at 10 kΩ: not to be mixed", () => {
    const hobby: Ntc = { by: "three coefficients", a: 1.009249522e-3, b: 2.378405444e-4, c: 2.019202697e-7 };
    expect(ntcDegrees(hobby, 10_000)).toBeCloseTo(24.68, 2);
  });

  // Source: a maker's table of R25 10 kΩ, B25/85 3977 (from memory; its fit reproduces every row)
  const rows = [
    [-20, 96_358],
    [0, 32_554],
    [10, 19_872],
    [20, 12_488],
    [25, 10_000],
    [30, 8_059],
    [40, 5_330],
    [50, 3_605],
    [60, 2_490],
    [70, 1_753],
    [80, 1_256],
    [85, 1_070],
    [100, 677],
  ] as const;

  test.each(rows)("a maker's four coefficients return %d °C for %d Ω within 0.02 K", (degrees, ohms) => {
    const ntc: Ntc = {
      by: "four coefficients",
      r25: 10_000,
      a: 3.354016e-3,
      b: 2.56985e-4,
      c: 2.620131e-6,
      d: 6.383091e-8,
    };
    expect(Math.abs(ntcDegrees(ntc, ohms) - degrees)).toBeLessThan(ohms > 1000 ? 0.02 : 0.05);
  });

  test.each([
    [0, 33_900, 0.041],
    [50, 3_563, -0.012],
    [60, 2_463, -0.011],
    [100, 685, 0.011],
  ])(
    "B alone, 3977, has at %d °C %d Ω, %d off the maker's table, and the model error owns up to it",
    (degrees, ohms, off) => {
      const found = ntcOhms(beta(3977), degrees);
      expect(Math.abs(found - ohms)).toBeLessThan(1);
      const table = rows.find(([at]) => at === degrees)?.[1] ?? Number.NaN;
      expect(found / table - 1).toBeCloseTo(off, 2);
      const limit = Math.sqrt(3) * ntcModelError(beta(3977), degrees);
      expect(limit).toBeGreaterThanOrEqual(Math.abs(found / table - 1));
      expect(limit).toBeLessThan(1.6 * Math.abs(off));
    },
  );

  test.each([
    [0, 33_621],
    [50, 3_588],
    [60, 2_486],
    [85, 1_087],
  ])("with B 3950 it has at %d °C %d Ω", (degrees, ohms) => {
    expect(Math.abs(ntcOhms(beta(3950), degrees) - ohms)).toBeLessThan(1);
  });

  test("a table gives its own rows, and between them 15 °C within 0.1 K of the maker's fit", () => {
    const ntc: Ntc = { by: "table", rows };
    for (const [degrees, ohms] of rows) expect(ntcDegrees(ntc, ohms)).toBeCloseTo(degrees, 9);
    // R25 exp(A + B/T + C/T² + D/T³) with A −14.6337, B 4791.842, C −115334, D −3.730535e6
    const t = 288.15;
    const fit = 10_000 * Math.exp(-14.6337 + 4791.842 / t - 115334 / t ** 2 - 3.730535e6 / t ** 3);
    expect(Math.abs(ntcDegrees(ntc, fit) - 15)).toBeLessThan(0.1);
    expect(() => ntcDegrees({ by: "table", rows: [[0, 100]] }, 5)).toThrow("two rows");
  });

  test(`ohms and degrees undo each other from -30 to 150 °C in every form (seed ${seed})`, () => {
    const forms: readonly Ntc[] = [
      beta(3950),
      { by: "three coefficients", a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 },
      { by: "table", rows },
    ];
    fc.assert(
      fc.property(fc.constantFrom(...forms), fc.double({ min: -30, max: 150, noNaN: true }), (ntc, degrees) => {
        expect(ntcDegrees(ntc, ntcOhms(ntc, degrees))).toBeCloseTo(degrees, 6);
      }),
      { seed, numRuns: 300 },
    );
  });
});
