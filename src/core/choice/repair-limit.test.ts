import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { must } from "../../../test/machines/branch-job.ts";
import { HAND_SHOP } from "../../../test/machines/hand-case.ts";
import { breakEvenYears, lifeOf, readLives, repairLimit } from "./index.ts";

const text = readFileSync("data/lives/first-use.yaml", "utf8");
const lives = must(readLives(text));

describe("service lives", () => {
  // Study of the German environment agency, as reported: washing machines 11.9, dishwashers 12.4, all large ones 13.0.
  test.each([
    ["washing-machine", "DE", 11.9],
    ["dishwasher", "DE", 12.4],
    ["tumble-dryer", "DE", 13],
    ["tumble-dryer", "ES", 11],
    ["dishwasher", "US", 9],
  ] as const)("of a %s in %s are %d years", (sheet, country, years) => {
    expect(lifeOf(lives, sheet, country)?.years).toBe(years);
  });

  test("of a country that is not told are none", () => {
    expect(lifeOf(lives, "dishwasher", "FR")).toBeUndefined();
    expect(lifeOf(lives, "dishwasher", undefined)).toBeUndefined();
  });

  test("stand with their source or not at all", () => {
    const read = readLives(text.replace(/, source: "R list[^"]*"/, ""));
    expect(read.ok ? [] : read.issues.map(({ code }) => code)).toEqual(["lives.no-source"]);
  });
});

describe("the limit of a repair", () => {
  const life = lifeOf(lives, "dishwasher", "DE");

  test("is the share of the life left, of the price of a new one: 4 of 12.4 years gone leave 8.4", () => {
    const limit = repairLimit(HAND_SHOP, life, 4, 620);
    expect(limit.upTo).toBeCloseTo((620 * 8.4) / 12.4, 9);
    expect(limit.perYear).toBeCloseTo(50, 9);
    expect(breakEvenYears(180, limit)).toBeCloseTo(3.6, 9);
  });

  test("is never below three years of a mended machine, however old", () => {
    expect(repairLimit(HAND_SHOP, life, 30, 620).upTo).toBeCloseTo((620 * 3) / 12.4, 9);
  });

  test("without a life known goes by the shop's own years", () => {
    expect(repairLimit(HAND_SHOP, undefined, 4).serviceYears).toBe(HAND_SHOP.serviceYears);
  });
});
