import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import type { Machine } from "../sheet/index.ts";
import { type Branch, branchesOf } from "./index.ts";

const dryer = shippedMachine("tumble-dryer", { stages: "one", control: "board with two heater poles" });
const machines: readonly (readonly [string, Machine])[] = [
  ["tumble dryer", dryer],
  ["washing machine", shippedMachine("washing-machine")],
  ["dishwasher", shippedMachine("dishwasher")],
];

const partsOf = ({ way }: Branch): readonly string[] => way.flatMap((one) => (one.kind === "part" ? [one.id] : []));

test("the dryer's heater hangs between two relays, its protectors and the motor's contact in order", () => {
  const heater = branchesOf(dryer).find(({ says, role }) => says === "heater" && role === "load");
  expect(heater === undefined ? [] : partsOf(heater)).toEqual([
    "heat-relay",
    "heater",
    "cut-out",
    "one-shot",
    "run-contact",
    "heat-relay-n",
  ]);
  expect(heater?.points.map((point) => point?.id)).toEqual(expect.arrayContaining(["X3.1", "X3.3", "heater.common"]));
});

test("what all loads have in common stands once, and a relay's contact and coil on the supplies that each is fed by", () => {
  const branches = branchesOf(dryer);
  const mains = branches.filter(({ supply }) => supply === "mains");
  expect(mains.filter(({ role }) => role === "in").map(partsOf)).toEqual([expect.arrayContaining(["cord", "filter"])]);
  const loads = mains.filter(({ role }) => role === "load");
  expect(loads.filter((one) => partsOf(one).includes("cord")).length).toBeLessThan(loads.length / 2);
  const supplies = branches.filter((one) => partsOf(one).includes("heat-relay")).map(({ supply }) => supply);
  expect(new Set(supplies)).toEqual(new Set(["mains", "low voltage"]));
});

describe.each(machines)("of the %s", (_, machine) => {
  const branches = branchesOf(machine);

  test("every part stands on a branch", () => {
    const told = new Set(branches.flatMap(partsOf));
    expect(machine.parts.filter(({ id, joint }) => joint === undefined && !told.has(id)).map(({ id }) => id)).toEqual(
      [],
    );
  });

  test("a branch has a point, or none, before each piece and after the last, and no id twice", () => {
    for (const { way, points } of branches) expect(points).toHaveLength(way.length + 1);
    expect(new Set(branches.map(({ id }) => id)).size).toBe(branches.length);
  });
});
