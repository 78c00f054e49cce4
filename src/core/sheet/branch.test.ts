import { describe, expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { machineOf, nodeOf, sheetOf } from "../../../test/sheets/read.ts";
import { branchSheet } from "./branch.ts";
import type { Machine } from "./machine.ts";

const library = shippedLibrary();

function branch(list: string): Machine {
  const sheet = branchSheet(list, library);
  if (!sheet.ok) throw new Error(sheet.issues.map(({ found }) => found).join());
  return machineOf(sheet.value, library);
}

describe("plug,cord,switch,cutout,heater:2kW,relay", () => {
  const machine = branch("plug,cord,switch,cutout,heater:2kW,relay");

  test("is four parts in a row from the cord's line to its neutral", () => {
    const order = [
      "switch.a",
      "switch.b",
      "cut-out.a",
      "cut-out.b",
      "heater.s1",
      "heater.common",
      "relay.11",
      "relay.14",
    ];
    expect(machine.points.map(({ id }) => id)).toEqual(expect.arrayContaining(order));
    const wireAt = (pin: string) => {
      const joint = machine.parts.find(({ id }) => id === `joint ${pin}`);
      return machine.elements[joint?.elements[0] ?? -1]?.a;
    };
    for (const [left, right] of [
      ["switch.b", "cut-out.a"],
      ["cut-out.b", "heater.s1"],
      ["heater.common", "relay.11"],
    ] as const) {
      expect(wireAt(left)).toBe(wireAt(right));
    }
  });

  test("2 kW goes to the heater: 26.45 ohms in two halves", () => {
    const halves = machine.elements.filter(({ id }) => id === "heater.first1" || id === "heater.second1");
    expect(halves.reduce((sum, { values }) => sum + (values[0]?.nominal ?? 0), 0)).toBeCloseTo(26.45, 9);
  });

  test("the relay's coil is driven in the step on", () => {
    const on = machine.steps.find(({ id }) => id === "on");
    expect(on?.drives.map(({ output }) => machine.variables[output]?.id)).toEqual(["relay-command"]);
  });

  test("points say numbered wires", () => {
    expect(machine.points.find(({ id }) => id === "heater.s1")?.says).toBe("heater, terminal s1 (wire 2)");
  });

  test("asks whether it works, and has the house's plug", () => {
    expect(machine.signs.map(({ id }) => id)).toEqual(["works", "trips the RCD"]);
    expect(nodeOf(machine, "plug.L")).not.toBe(nodeOf(machine, "plug.N"));
  });
});

test("a bare number is the first rating that the kind asks: cut-out 150 opens at 150", () => {
  const machine = branch("cut-out 150, heater 1000 W");
  expect(machine.parts.find(({ id }) => id === "cut-out")?.instance.ratings.get("opens")?.nominal).toBe(150);
});

test("two of a kind get numbers", () => {
  expect(branch("cut-out,cut-out,heater").parts.map(({ id }) => id)).toEqual(
    expect.arrayContaining(["cut-out", "cut-out-2"]),
  );
});

test("a kind whose name the house uses gets a number: bond-2", () => {
  expect(branch("switch,bond").parts.map(({ id }) => id)).toContain("bond-2");
});

test("a branch in a file keeps its title, and its own sections are laid over it", () => {
  const text = `format: faultwright-sheet/1
sheet: my kettle
branch: [plug, switch, cut-out 150, heater 2000 W, plug]
parts: {heater: {share: 20}}
signs: {smells: {ask: "Does it smell?", table: {heater: .5, else: .1}}}
`;
  const machine = machineOf(sheetOf(text, library), library);
  expect(machine.title).toBe("my kettle");
  expect(machine.parts.find(({ id }) => id === "heater")?.share).toBe(20);
  expect(machine.signs.map(({ id }) => id)).toContain("smells");
});

test("a branch may stand on another supply", () => {
  const sheet = branchSheet("switch,heater:3kW", library, { house: "split 120/240", class: "I", line: 1 });
  expect(sheet.ok && machineOf(sheet.value, library).plugElements).toHaveLength(2);
});

test.each([
  ["plug,heather", "sheet.kind.unknown", "Did you mean heater?"],
  ["plug,fuse", "sheet.kind.unknown", "Known by that word: one-shot, plug-fuse."],
  ["heater:2kQ", undefined, undefined],
  ["plug,cord", "sheet.branch.empty", undefined],
  ["filter", "sheet.branch.kind", "Write a sheet for a circuit with more."],
  ["heater:5 mm", "sheet.branch.rating", undefined],
])("%s is refused", (list, code, hint) => {
  const sheet = branchSheet(list, library);
  expect(sheet).toMatchObject({
    ok: false,
    issues: [{ ...(code === undefined ? {} : { code }), ...(hint === undefined ? {} : { hint }) }],
  });
});

test("all wrong items of a branch are said in one go", () => {
  const sheet = branchSheet("heather,swich,cutt-out", library);
  expect(sheet.ok ? [] : sheet.issues.map(({ hint }) => hint)).toEqual([
    "Did you mean heater?",
    "Did you mean switch?",
    "Did you mean cut-out?",
  ]);
});
