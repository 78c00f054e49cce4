import { describe, expect, test } from "vitest";
import { isLow, type LowKind } from "../../../test/machines/low-points.ts";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import type { Machine, Point } from "../sheet/index.ts";
import { railRule } from "./rails.ts";
import { handheldProbes, usualProbes } from "./usual-probes.ts";

describe("what hangs on a rail", () => {
  const machines: readonly (readonly [LowKind, string, Readonly<Record<string, string>>])[] = [
    ["dryer", "tumble-dryer", { control: "board with two heater poles", condensate: "pump to a tank above" }],
    ["dryer", "tumble-dryer", { control: "board with one heater pole", "motor-watch": "drum sensor on the board" }],
    ["timer", "tumble-dryer", { control: "timer" }],
    ["dishwasher", "dishwasher", { "pump-type": "capacitor", level: "flow meter", "heater-poles": "separate relay" }],
    ["dishwasher with module", "dishwasher", { "pump-type": "three-phase with module", turbidity: "with a sensor" }],
    ["washing machine, brushes", "washing-machine", { motor: "brushes and a triac", level: "contact pressure switch" }],
    ["washing machine, module", "washing-machine", { motor: "three phases and a module", level: "sealed sensor" }],
  ];

  test.each(machines)("of a %s (%s, %o) is what a reader of the sheet finds", (kind, sheet, answers) => {
    const machine = shippedMachine(sheet, answers);
    const rule = railRule([machine]);
    const pins = machine.points.filter(({ plug }) => plug !== undefined);
    expect(pins.length).toBeGreaterThan(10);
    expect(pins.filter((point) => rule.isOnRail(point)).map(({ id }) => id)).toEqual(
      pins.filter(({ id }) => isLow(kind, id)).map(({ id }) => id),
    );
  });

  test("is the same whether the sheet says that the rail is isolated or on the mains", () => {
    const machine = shippedMachine("tumble-dryer", { control: "board with two heater poles" });
    const isolated = { ...machine, elements: machine.elements.filter(({ id }) => id !== "supply.tie") };
    expect(isolated.elements.length).toBe(machine.elements.length - 1);
    const onRail = (one: Machine): string[] => one.points.filter(railRule([one]).isOnRail).map(({ id }) => id);
    expect(onRail(isolated)).toEqual(onRail(machine));
    expect(onRail(machine)).toContain("X6.1");
  });

  test("is read against its own 0 V; not against another wire of the rail, a pole or earth", () => {
    const machine = shippedMachine("washing-machine", { motor: "three phases and a module" });
    const { isToOwnZero } = railRule([machine]);
    const at = (id: string): Point => {
      const point = machine.points.find((one) => one.id === id);
      if (point === undefined) throw new Error(`no point ${id}`);
      return point;
    };
    const may = (from: string, to: string): boolean => isToOwnZero(at(from), at(to)) && isToOwnZero(at(to), at(from));
    expect(may("X6.1", "X6.2")).toBe(true);
    expect(may("X5.4", "X5.6")).toBe(true);
    expect(may("X5.4", "X5.5")).toBe(false);
    expect(may("X6.1", "X1.1")).toBe(false);
    expect(may("X6.2", "X1.2")).toBe(false);
    expect(may("X6.1", "plug.N")).toBe(false);
    expect(may("X6.1", "plug.PE")).toBe(false);
    expect(may("X5.1", "X5.6")).toBe(false);
    // mains to mains, and the wire that a board senses through megohms: a mains wire all the same
    expect(may("X8.1", "X1.2")).toBe(true);
    expect(may("X2.3", "X1.2")).toBe(true);
  });

  test("while a slot is open, a pin that may be a sensor's is not read against mains", () => {
    const machines = ["capacitor", "three-phase with module"].map((type) =>
      shippedMachine("dishwasher", { "pump-type": type }),
    );
    const [plain] = machines;
    const at = (id: string): Point => plain?.points.find((one) => one.id === id) as Point;
    expect(railRule(machines.slice(0, 1)).isToOwnZero(at("X4.1"), at("X1.2"))).toBe(true);
    expect(railRule(machines).isToOwnZero(at("X4.1"), at("X1.2"))).toBe(false);
  });

  test.each(machines)(
    "of a %s (%s, %o) is in no list of readings against the mains, clipped or by hand",
    (kind, sheet, answers) => {
      const machine = shippedMachine(sheet, answers);
      const volts = [...usualProbes(machine), ...handheldProbes(machine)].flatMap(
        ({ probe: { quantity, from, to } }) =>
          quantity === "volts" && from !== undefined && to !== undefined ? [[from, to] as const] : [],
      );
      expect(volts.length).toBeGreaterThan(10);
      expect(volts.filter(([from, to]) => isLow(kind, from) !== isLow(kind, to))).toEqual([]);
    },
  );
});
