import fc from "fast-check";
import { expect, test } from "vitest";
import { addDays, addMonths, dayCount, isDay } from "./index.ts";

test.each([
  ["2026-02-27", 2, "2026-03-01"],
  ["2028-02-27", 2, "2028-02-29"],
  ["2026-12-20", 14, "2027-01-03"],
  ["2100-02-28", 1, "2100-03-01"],
  ["2026-03-01", -1, "2026-02-28"],
] as const)("%s and %i days is %s", (date, days, later) => {
  expect(addDays(date, days)).toBe(later);
});

test("days are as the calendar of the machine counts them, from 1900 to 2200", () => {
  const first = Date.UTC(1900, 0, 1) / 86_400_000;
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 109_500 }), fc.integer({ min: -4_000, max: 4_000 }), (from, days) => {
      const iso = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10);
      expect(addDays(iso(first + from), days)).toBe(iso(first + from + days));
    }),
  );
});

test("days since 1970 are as the calendar of the machine counts them", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1000, max: 2400 }),
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 1, max: 31 }),
      (year, month, day) => {
        const date = new Date(Date.UTC(year, month - 1, day));
        const isReal = date.getUTCDate() === day;
        expect(dayCount(year, month, day)).toBe(isReal ? date.getTime() / 86_400_000 : undefined);
        const text = [year, month, day].map((part) => String(part).padStart(2, "0")).join("-");
        expect(isDay(text)).toBe(isReal);
      },
    ),
    { numRuns: 1000 },
  );
});

test.each(["2026-02-30", "2026-13-01", "2026-3-4", "04.03.2026", "2026-00-10", ""])("%j is no day", (text) => {
  expect(isDay(text)).toBe(false);
});

test.each([
  ["2026-01-31", 1, "2026-02-28"],
  ["2028-02-29", 12, "2029-02-28"],
  ["2026-11-30", 3, "2027-02-28"],
  ["2026-03-04", -24, "2024-03-04"],
] as const)("%s and %i months is %s", (date, months, later) => {
  expect(addMonths(date, months)).toBe(later);
});
