import fc from "fast-check";
import { expect, test } from "vitest";
import { decimalText, minorOf, money, moneyText, shareOut } from "./index.ts";

test.each([
  [45, "EUR", 4500, "45.00 EUR"],
  [1.005, "GBP", 101, "1.01 GBP"],
  [8.615, "EUR", 862, "8.62 EUR"],
  [-0.005, "EUR", -1, "-0.01 EUR"],
  [1234567.891, "EUR", 123456789, "1 234 567.89 EUR"],
  [1500.4, "JPY", 1500, "1 500 JPY"],
  [0, "EUR", 0, "0.00 EUR"],
] as const)("%d %s is %i of its smallest unit: %s", (amount, currency, minor, text) => {
  expect(minorOf(amount, currency)).toBe(minor);
  expect(moneyText(money(minor, currency))).toBe(text);
});

test("five cents below zero keep their places", () => {
  expect(decimalText(money(-5, "EUR"))).toBe("-0.05");
});

test("half a cent, nothing and more than all the money there is are refused", () => {
  for (const minor of [0.5, Number.NaN, 1e13]) expect(() => money(minor, "EUR")).toThrow(RangeError);
});

test("every decimal of two places is what it says", () => {
  fc.assert(
    fc.property(fc.integer({ min: -1e9, max: 1e9 }), (minor) => {
      expect(minorOf(Number(decimalText(money(minor, "EUR"))), "EUR")).toBe(minor);
    }),
  );
});

test("100.00 shared by three is 33.34, 33.33 and 33.33", () => {
  expect(shareOut(10000, [1, 1, 1])).toEqual([3334, 3333, 3333]);
});

test("shares sum to the whole and none strays a unit from its due", () => {
  const weights = fc.array(fc.integer({ min: 0, max: 1e6 }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(fc.integer({ min: -1e9, max: 1e9 }), weights, (total, given) => {
      const shares = shareOut(total, given);
      const whole = given.reduce((sum, weight) => sum + weight, 0);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBe(total);
      for (const [index, share] of shares.entries()) {
        const due = whole === 0 ? total / given.length : (total * (given[index] as number)) / whole;
        expect(Math.abs(share - due)).toBeLessThan(1 + 1e-6);
      }
    }),
  );
});
