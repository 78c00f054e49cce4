import { describe, expect, test } from "vitest";
import { ratioOf, shareOf } from "./tally.ts";

describe("an interval of 95 %", () => {
  test("of a mean over 4 groups of one machine is that of Student with 3 degrees: 5 ± 3.182 · 2.582 / 2", () => {
    // t(0.975, 3) = 3.182446: Student's table, NIST/SEMATECH e-Handbook 1.3.6.7.2 (from memory).
    const { value, lo, hi } = ratioOf([2, 4, 6, 8].map((top) => ({ top, bottom: 1 })));
    expect(value).toBe(5);
    expect(hi - value).toBeCloseTo((3.182446 * Math.sqrt(20 / 3)) / 2, 4);
    expect(value - lo).toBeCloseTo(hi - value, 12);
  });

  test("of a ratio is nothing wide where every group has the same ratio, whatever its size", () => {
    const { value, lo, hi } = ratioOf([1, 5, 9].map((bottom) => ({ top: 2 * bottom, bottom })));
    expect([value, lo, hi]).toEqual([2, 2, 2]);
  });

  test("of a mean from one group is not told", () => {
    expect(ratioOf([{ top: 6, bottom: 3 }])).toEqual({ value: 2, lo: Number.NaN, hi: Number.NaN });
  });

  test("of no success in 10 is 0 to 0.2775, and of 7 in 20 is 0.181 to 0.567", () => {
    // Worked from Wilson's formula: 0 of n gives z² / (n + z²) = 3.8415 / 13.8415.
    expect(shareOf(0, 10).lo).toBeCloseTo(0, 12);
    expect(shareOf(0, 10).hi).toBeCloseTo(3.841459 / 13.841459, 6);
    expect(shareOf(7, 20).lo).toBeCloseTo(0.1812, 4);
    expect(shareOf(7, 20).hi).toBeCloseTo(0.5671, 4);
  });
});
