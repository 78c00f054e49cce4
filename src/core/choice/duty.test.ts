import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { must } from "../../../test/machines/branch-job.ts";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { dutyFor, readDuties } from "./index.ts";

const text = readFileSync("data/duties/spare-parts.yaml", "utf8");
const rules = must(readDuties(text));
const dishwasher = { sheet: "dishwasher", country: "DE", date: "2030-06-01" };

describe("a maker's duty to deliver a part", () => {
  // Regulation (EU) 2019/2022, Annex II point 5: seven years after the last unit, units placed from 1 March 2021.
  test.each([
    ["bought after the rule, last unit 2023: bound until 2030-12-31", 5, "2023-12-31", "bound", "2030-12-31"],
    ["the same, last unit early in 2023: over", 5, "2023-03-01", "ended", "2030-03-01"],
    [
      "bought about when the rule began: not certain that this unit is covered",
      9,
      "2024-01-01",
      "unknown",
      "2031-01-01",
    ],
    ["last unit not told: unknown", 5, undefined, "unknown", undefined],
    ["bought long before: older than the rule", 12, "2024-01-01", "older than the rule", undefined],
    ["last unit before the rule: older than the rule", undefined, "2020-05-01", "older than the rule", undefined],
    ["age not told: unknown, with the day on which it ends", undefined, "2024-01-01", "unknown", "2031-01-01"],
  ] as const)("%s", (_what, ageYears, lastUnit, says, until) => {
    const model = {
      ...dishwasher,
      ...(ageYears === undefined ? {} : { ageYears }),
      ...(lastUnit === undefined ? {} : { lastUnit }),
    };
    const duty = dutyFor(rules, "drain-pump", model);
    expect(duty).toMatchObject({ rule: "EU-2019/2022", to: "professional", years: 7, workingDays: 15, says });
    expect(duty?.until).toBe(until);
  });

  test("29 February 2024 and seven years are 28 February 2031", () => {
    expect(dutyFor(rules, "heater", { ...dishwasher, lastUnit: "2024-02-29" })?.until).toBe("2031-02-28");
  });

  test("is another in Great Britain, and none in a country or of a part that no rule names", () => {
    const washer = { sheet: "washing-machine", country: "GB", date: "2026-03-04" };
    expect(dutyFor(rules, "door-lock-bimetal", washer)).toMatchObject({ rule: "GB-SI-2021/745", to: "anyone" });
    expect(dutyFor(rules, "drain-pump", { ...dishwasher, country: "US" })).toBeUndefined();
    expect(dutyFor(rules, "drain-pump", { sheet: "dishwasher" })).toBeUndefined();
    expect(dutyFor(rules, "hinge-loop", dishwasher)).toBeUndefined();
  });

  test("names only kinds that there are, and assemblies", () => {
    const known = new Set([...shippedLibrary().kinds.keys(), "control"]);
    const named = rules.flatMap(({ professional, anyone }) => [
      ...(professional?.parts ?? []),
      ...(anyone?.parts ?? []),
    ]);
    expect(named.filter((part) => !known.has(part))).toEqual([]);
  });

  test("without its source or with a place unknown is refused", () => {
    const bad = text.replace(/ {4}source: R Regulation \(EU\) 2019\/2022.*\n/, "").replace("where: GB", "where: mars");
    const read = readDuties(bad);
    expect(read.ok ? [] : read.issues.map(({ code }) => code)).toEqual(["duties.no-source", "read.choice"]);
  });
});
