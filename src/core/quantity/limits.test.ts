import { expect, test } from "vitest";
import { type Limits, parseLimits } from "./limits.ts";
import { isWide, standardUncertainty } from "./spread.ts";

const infinity = Number.POSITIVE_INFINITY;

test.each<[string, Limits]>([
  ["≤ 0R1", { lo: -infinity, hi: 0.1 }],
  ["<= 100m @C", { lo: -infinity, hi: 0.1 }],
  ["at most 50 mΩ", { lo: -infinity, hi: 0.05 }],
  ["≥ 1 MΩ", { lo: 1e6, hi: infinity }],
  ["25..45", { lo: 25, hi: 45 }],
  ["100R ±10%", { lo: 90, hi: 110 }],
  ["OL", { lo: infinity, hi: infinity }],
])("limits %s", (text, limits) => {
  const read = parseLimits(text, { unit: "Ohm" });
  expect(read.ok && read.value).toEqual(limits);
});

test("a limit in volts where ohms are asked is refused", () => {
  const read = parseLimits("≤ 5 V", { unit: "Ohm" });
  expect(read.ok ? [] : read.issues.map((issue) => issue.code)).toEqual(["quantity.wrong-unit"]);
});

test("a tolerance has its limits at two standard deviations: ±10 % of 3300 is 165; +5-10 % takes the root mean square", () => {
  expect(standardUncertainty({ nominal: 3300, lo: 2970, hi: 3630, spread: "tolerance" })).toBeCloseTo(165, 9);
  const uneven = standardUncertainty({ nominal: 2400, lo: 2160, hi: 2520, spread: "tolerance" });
  expect(uneven).toBeCloseTo(Math.sqrt((120 ** 2 + 60 ** 2) / 2), 9);
  expect(standardUncertainty({ nominal: 7, lo: 7, hi: 7, spread: "exact" })).toBe(0);
});

test("a range is log-uniform, 1..e has standard deviation 0.4921, or uniform where it holds zero, ±1 has 1/√3", () => {
  // closed form: mean e − 1, mean square (e² − 1)/2
  const deviation = Math.sqrt((Math.E ** 2 - 1) / 2 - (Math.E - 1) ** 2);
  expect(standardUncertainty({ nominal: Math.sqrt(Math.E), lo: 1, hi: Math.E, spread: "range" })).toBeCloseTo(
    deviation,
    12,
  );
  expect(standardUncertainty({ nominal: 0, lo: -1, hi: 1, spread: "range" })).toBeCloseTo(1 / Math.sqrt(3), 12);
});

test("±25 % is narrow enough for first-order propagation, ±35 % and a range of 1 to 3 are not", () => {
  expect(isWide({ nominal: 100, lo: 75, hi: 125, spread: "tolerance" })).toBe(false);
  expect(isWide({ nominal: 100, lo: 65, hi: 135, spread: "tolerance" })).toBe(true);
  expect(isWide({ nominal: Math.sqrt(3), lo: 1, hi: 3, spread: "range" })).toBe(true);
});
