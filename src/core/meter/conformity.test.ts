import { describe, expect, test } from "vitest";
import { normalQuantile } from "../chance/index.ts";
import { estimate, type Limits } from "../quantity/index.ts";
import { conformity, guarded, passChance, risksOf } from "./conformity.ts";

const infinity = Number.POSITIVE_INFINITY;
const probability = (value: number, u: number, limits: Limits): number =>
  conformity(estimate(value, { u }), limits).probability;

describe("JCGM 106:2012 (values from memory, recomputed)", () => {
  test("7.3.3 example 1: -5.47 V with u 0.05 against at most -5.40 V conforms with 0.92", () => {
    expect(probability(-5.47, 0.05, { lo: -infinity, hi: -5.4 })).toBeCloseTo(0.9192, 4);
  });

  test("7.3.3 example 2: 509.7 kPa with u 8.6 against at least 490 kPa conforms with 0.99", () => {
    expect(probability(509.7, 8.6, { lo: 490, hi: infinity })).toBeCloseTo(0.989, 4);
  });

  test("7.4: 13.6 mm²/s with u 1.8 against 12.5 to 16.3 conforms with 0.66", () => {
    expect(probability(13.6, 1.8, { lo: 12.5, hi: 16.3 })).toBeCloseTo(0.6626, 4);
  });

  test("8.3.3: a limit of 100 km/h, u 2 % of the reading, 99.9 % sure: act above 107 km/h", () => {
    const act = 100 / (1 - normalQuantile(0.999) * 0.02);
    expect(Math.ceil(act)).toBe(107);
    expect(probability(act, 0.02 * act, { lo: 100, hi: infinity })).toBeCloseTo(0.999, 9);
  });

  test.each([
    [0, 0.019, 0.037],
    [1, 0.0043, 0.115],
    [2, 0.00047, 0.248],
  ])(
    "9.5.4: resistors of 1500.0 ± 0.2 Ω with a guard band of %d u: consumer's risk %d, producer's %d",
    (bands, pass, alarm) => {
      const good = { lo: 1499.8, hi: 1500.2 };
      const { falsePass, falseAlarm } = risksOf(1500, 0.12, 0.04, good, guarded(good, bands * 0.04));
      // limits of integration as the clause has them; agreement to the digits printed
      expect(Math.abs(falsePass - pass)).toBeLessThan(0.03 * pass);
      expect(Math.abs(falseAlarm - alarm)).toBeLessThan(0.02 * alarm);
    },
  );
});

describe("what may be said", () => {
  const limits = { lo: 25.19, hi: 29.39 };
  test.each([
    [27, "good"],
    [25.3, "too close to say"],
    [25.1, "too close to say"],
    [23, "bad"],
    [31, "bad"],
  ])("a 2000 W heater read %d Ω with u 0.3 against 25.19 to 29.39 Ω is %s", (ohms, says) => {
    expect(conformity(estimate(ohms, { u: 0.3 }), limits).says).toBe(says);
  });

  test("asking for 99 % instead of 95 % makes a good one too close to say", () => {
    const reading = estimate(25.75, { u: 0.3 });
    expect(conformity(reading, limits).says).toBe("good");
    expect(conformity(reading, limits, 0.99).says).toBe("too close to say");
  });

  test("without uncertainty, or open, the answer is yes or no", () => {
    expect(probability(27, 0, limits)).toBe(1);
    expect(probability(infinity, 1, limits)).toBe(0);
    expect(probability(infinity, 1, { lo: 1e6, hi: infinity })).toBe(1);
  });

  test("a contact of 0.3 Ω passes a limit of 0.1 Ω on a plain meter with chance 0.12: its false-pass rate", () => {
    // u of ±(1 % + 3 counts of 0.1 Ω) at 0.3 Ω
    const u = (0.003 + 0.3) / Math.sqrt(3);
    expect(passChance(0.3, u, { lo: -infinity, hi: 0.1 })).toBeCloseTo(0.1265, 3);
    expect(passChance(infinity, u, { lo: -infinity, hi: 0.1 })).toBe(0);
    expect(passChance(5, 0, { lo: 1, hi: infinity })).toBe(1);
  });
});
