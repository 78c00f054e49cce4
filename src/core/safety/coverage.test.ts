import { expect, test } from "vitest";
import { readShipped } from "../../../test/rows/dryer.ts";
import { assemble, combinations } from "../sheet/index.ts";
import { type InsulationCoverage, insulationCoverage } from "./coverage.ts";

function coverageOf(sheetName: string, wanted: Readonly<Record<string, string>>): InsulationCoverage {
  const { library, sheet } = readShipped(sheetName);
  const found = combinations(sheet, new Map()).find(({ choice }) =>
    Object.entries(wanted).every(([slot, variant]) => choice.get(slot) === variant),
  );
  if (found === undefined) throw new Error(`no ${sheetName} with ${JSON.stringify(wanted)}`);
  const machine = assemble(sheet, library, found.choice);
  if (!machine.ok) throw new Error(JSON.stringify(machine.issues));
  const coverage = insulationCoverage(machine.value);
  if (coverage === undefined) throw new Error("no earth at the plug");
  return coverage;
}

test("a heater switched on both poles with its relay open is not reached from the plug, and its connector reaches it", () => {
  const { reached, missed } = coverageOf("washing-machine", { "heater-poles": "two" });
  expect(reached).not.toContain("heater");
  expect(missed.find(({ part }) => part === "heater")).toMatchObject({
    isPartly: false,
    by: [{ is: "terminals", pulled: "X3", access: "lid and control" }],
  });
});

test("the same heater switched on one pole is reached from the plug", () => {
  const { reached, missed } = coverageOf("washing-machine", { "heater-poles": "one" });
  expect(reached).toContain("heater");
  expect(missed.map(({ part }) => part)).not.toContain("heater");
});

test("wires that run to two loads, each behind its own contact, are reached by two connectors together", () => {
  const { missed } = coverageOf("washing-machine", { "heater-poles": "two" });
  const ways = missed.find(({ part }) => part === "loom")?.by ?? [];
  expect(ways.map((way) => (way.is === "terminals" ? way.pulled : way.is)).sort()).toEqual(["X3", "X4"]);
});
