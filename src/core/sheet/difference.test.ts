import { expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { machineOf, nodeOf, sheetOf, smallDryerText } from "../../../test/sheets/read.ts";
import { assemble } from "./assemble.ts";
import { combinations } from "./combine.ts";

const library = shippedLibrary();
const sheet = sheetOf(smallDryerText, library);
const board = { control: "board, one heater pole", stages: "one" };

function refused(difference: string): unknown {
  const [likeliest] = combinations(sheet, new Map(Object.entries(board)));
  const assembled = assemble(sheet, library, likeliest?.choice ?? new Map(), [difference]);
  return assembled.ok ? "accepted" : assembled.issues;
}

test("a part that is absent and joined leaves its two wires one: cut-out absent", () => {
  const machine = machineOf(sheet, library, board, ["cut-out absent"]);
  const ids = machine.parts.map(({ id }) => id);
  expect(ids.filter((id) => id.includes("cut-out"))).toEqual([]);
  const [heater, fuse] = ["joint heater.common", "joint one-shot.a"].map((id) => {
    const joint = machine.parts.find((part) => part.id === id);
    return machine.elements[joint?.elements[0] ?? -1]?.a;
  });
  expect(heater).toBe(fuse);
});

test("a part that is absent and removed leaves its wires apart, and formulas about it give 0", () => {
  const machine = machineOf(sheet, library, board, ["ntc absent"]);
  expect(machine.parts.some(({ id }) => id === "ntc")).toBe(false);
  expect(nodeOf(machine, "X2.3")).not.toBe(nodeOf(machine, "X2.4"));
});

test("insert cuts the wire at a pin: a third protector after one-shot.b, with joints of its own", () => {
  const machine = machineOf(sheet, library, board, ["insert cut-out-3 like one-shot after one-shot.b"]);
  const ends = ["joint one-shot.b", "joint cut-out-3.a", "joint cut-out-3.b", "joint run-contact.a"].map((id) => {
    const joint = machine.parts.find((part) => part.id === id);
    return machine.elements[joint?.elements[0] ?? -1]?.a;
  });
  expect(ends[0]).toBe(ends[1]);
  expect(ends[1]).not.toBe(ends[2]);
  expect(ends.slice(2).every((end) => end !== undefined)).toBe(true);
});

test("a rating of this machine: heater.P is 1000 W makes two halves of 26.45 ohms", () => {
  const machine = machineOf(sheet, library, board, ["heater.P is 1000 W"]);
  expect(machine.elements.find(({ id }) => id === "heater.first1")?.values[0]?.nominal).toBeCloseTo(26.45, 9);
});

test("a plate of 1000 W keeps the kind's +5 -10 %: from 900 to 1050 W, unless another is written", () => {
  const plate = (text: string) =>
    machineOf(sheet, library, board, [`heater.P is ${text}`]).parameters.find(({ id }) => id === "heater.P")?.rated;
  expect(plate("1000 W")).toMatchObject({ nominal: 1000, spread: "tolerance" });
  expect(plate("1000 W")?.lo).toBeCloseTo(900, 6);
  expect(plate("1000 W")?.hi).toBeCloseTo(1050, 6);
  expect(plate("1000 W ±1%")?.hi).toBeCloseTo(1010, 6);
});

test("pin X3.3 is X3.2: what the family has at pin 3 is found at pin 2", () => {
  const machine = machineOf(sheet, library, board, ["pin X3.3 is X3.2"]);
  expect(machine.plugs.find(({ id }) => id === "X3")?.pins.map(({ pin, colour }) => [pin, colour])).toEqual([
    ["1", "red"],
    ["2", "blue"],
  ]);
});

test("several differences are applied one after the other", () => {
  const machine = machineOf(sheet, library, board, [
    "insert cut-out-3 like one-shot after one-shot.b",
    "cut-out-3 absent",
  ]);
  expect(machine.parts.some(({ id }) => id === "cut-out-3")).toBe(false);
});

test.each([
  ["cut-outt absent", "Did you mean cut-out?"],
  ["pin X33.1 is X33.2", undefined],
  ["insert a like heater after one-shot.b", undefined],
  ["insert a like one-shot after one-shot.c", undefined],
  ["the door is green", undefined],
])("%s is refused", (difference, hint) => {
  expect(refused(difference)).toMatchObject([
    {
      code: "sheet.difference",
      at: ["differences", 0],
      found: `"${difference}"`,
      ...(hint === undefined ? {} : { hint }),
    },
  ]);
});

test.each(["heater.P is 10 Q", "heater.Q is 1000 W", "heater.share is 200"])(
  "%s is refused by the part itself",
  (difference) => {
    expect(refused(difference)).not.toBe("accepted");
  },
);
