// Every row of the trade's table for washing machines as a small job: the complaint and the readings a technician would take
// first. What must come out was written down in expected-washing-machine.yaml before any of it was run (common practice, no source).
import { describe, expect, it } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { checkRuns } from "../../src/core/run/index.ts";
import { checkSheet } from "../../src/core/sheet/index.ts";
import { shippedMachine } from "../machines/shipped.ts";
import { readShipped } from "./dryer.ts";
import { testRows } from "./row-jobs.ts";

describe("the washing machine's fault comes out where a technician expects it", () => {
  testRows("expected-washing-machine.yaml", "W", 22);
});

describe("the washing machine's sheet", () => {
  it("has nothing to say in any of its 32 combinations", () => {
    const { sheet, library } = readShipped("washing-machine");
    expect(checkSheet(sheet, library)).toEqual([]);
  }, 60_000);

  it.each([
    {},
    { motor: "brushes and a triac", level: "contact pressure switch" },
    { lock: "pulse", "heater-poles": "two" },
    { motor: "brushes and a triac", lock: "pulse", "heater-fuses": "none" },
  ])(
    "runs a good machine and each way of failing without an issue: %j",
    (answers) => {
      const machine = shippedMachine("washing-machine", answers);
      expect(checkRuns(machine, modesOf(machine))).toEqual([]);
    },
    60_000,
  );
});
