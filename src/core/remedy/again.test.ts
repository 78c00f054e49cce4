import { expect, test } from "vitest";
import { again, type Course, cureOf } from "./index.ts";

const clean: Course = {
  id: "sieve/clean",
  on: "sieve",
  remedy: "clean",
  says: "sieve: clean",
  minutes: 10,
  price: 0,
  fetched: false,
  cured: 0.9,
  back: 0.05,
  steps: [],
  assembly: false,
  cost: 20,
};

test("what did not cure is done once more with half the chance, and never a third time", () => {
  expect(again(clean, 0)).toEqual(clean);
  expect(again(clean, 1)).toEqual({ ...clean, says: "sieve: clean, once more", cured: 0.45 });
  expect(again(clean, 2)).toBeUndefined();
});

test("once more is worth 20 against a machine of 300 at 45 in 100: 20 + 0.55 × 300 = 185, against 300 by stopping", () => {
  const second = again(clean, 1);
  expect(cureOf(second === undefined ? [] : [second], 300, 0).cost).toBeCloseTo(185, 9);
});
