import fc from "fast-check";
import { expect, test } from "vitest";
import { addDays } from "./index.ts";

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
