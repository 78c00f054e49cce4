import { expect, test } from "vitest";
import { faultsOfSeries, nextNumber } from "./index.ts";

const F = { prefix: "F-26-", digits: 4 };

test("a series goes on after its largest number, whatever stands in between", () => {
  expect(nextNumber(F, [])).toBe("F-26-0001");
  expect(nextNumber({ ...F, first: 118 }, ["G-26-0044"])).toBe("F-26-0118");
  expect(nextNumber({ ...F, first: 118 }, ["F-26-0009"])).toBe("F-26-0010");
  expect(nextNumber(F, ["F-26-0009", "G-26-0044", "F-26-0003"])).toBe("F-26-0010");
});

test("numbers left out and given twice are named", () => {
  expect(faultsOfSeries(F, ["F-26-0007", "F-26-0010", "F-26-0008", "F-26-0008", "other"])).toEqual({
    missing: ["F-26-0009"],
    twice: ["F-26-0008"],
  });
  expect(faultsOfSeries(F, ["F-26-0001", "F-26-0002"])).toEqual({ missing: [], twice: [] });
});
