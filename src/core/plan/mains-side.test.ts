import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { mainsSide } from "./mains-side.ts";

describe.each(["tumble-dryer", "dishwasher", "washing-machine"])("on the %s", (sheet) => {
  const machine = shippedMachine(sheet);
  const side = mainsSide(machine);
  const pinsOf = (part: string): readonly number[] => [
    ...(machine.parts.find(({ id }) => id === part)?.pins.values() ?? []),
  ];

  test("the pins of the temperature sensor hang on a rail, not on the mains", () => {
    expect(pinsOf("ntc").length).toBeGreaterThan(1);
    expect(pinsOf("ntc").filter((node) => side.has(node))).toEqual([]);
  });

  test("the ends of the heater hang on the mains", () => {
    expect(pinsOf("heater").length).toBeGreaterThan(1);
    expect(pinsOf("heater").filter((node) => !side.has(node))).toEqual([]);
  });
});
