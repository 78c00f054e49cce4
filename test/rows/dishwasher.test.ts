// Every row of the trade's table for dishwashers as a small job: the complaint and the readings a technician would take
// first. What must come out was written down in expected-dishwasher.yaml before any of it was run (common practice, no source).
import { describe, expect, it } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { checkRuns } from "../../src/core/run/index.ts";
import { checkSheet } from "../../src/core/sheet/index.ts";
import { shippedMachine } from "../machines/shipped.ts";
import { readShipped } from "./dryer.ts";
import { testRows } from "./row-jobs.ts";

describe("the dishwasher's fault comes out where a technician expects it", () => {
  testRows("expected-dishwasher.yaml", "D", 24);
});

describe("the dishwasher's sheet", () => {
  it("has nothing to say in any of its 192 combinations", () => {
    const { sheet, library } = readShipped("dishwasher");
    expect(checkSheet(sheet, library)).toEqual([]);
  }, 60_000);

  it.each([
    {},
    { "heater-poles": "separate relay" },
    { "pump-type": "three-phase with module" },
    { level: "level switch", turbidity: "with a sensor" },
  ])(
    "runs a good machine and each way of failing without an issue: %j",
    (answers) => {
      const machine = shippedMachine("dishwasher", answers);
      expect(checkRuns(machine, modesOf(machine))).toEqual([]);
    },
    60_000,
  );
});
