import { describe, expect, test } from "vitest";
import { MachineBuilder } from "../../../test/machines/build.ts";
import { caution } from "./cautions.ts";
import { storedEnergy } from "./stored-energy.ts";

function machine() {
  const builder = new MachineBuilder();
  builder.element("run-cap.C", "C", "a", "b", 10e-6);
  builder.element("filter.X", "C", "L", "N", 0.47e-6);
  builder.element("filter.bleed", "R", "N", "L", 1e6);
  builder.element("filter.Y", "C", "L", "case", 4.7e-9);
  const built = builder.build();
  return { ...built, parts: built.parts.map((part) => (part.id === "run-cap" ? { ...part, access: "back" } : part)) };
}

describe("stored energy", () => {
  test("of a 10 µF run capacitor at 450 V is 1.01 J (textbook: C V²/2), at most 0.3 s through 10 kΩ to 34 V", () => {
    const [run] = storedEnergy(machine(), new Set(["back"]), false);
    expect(run?.part).toBe("run-cap");
    expect(run?.joules).toBeCloseTo(1.0125, 9);
    expect(run?.clipSeconds).toBeCloseTo(0.1 * Math.log(450 / 34), 9);
    expect(run?.bleedSeconds).toBeUndefined();
  });

  test("at the plug pins is gone after 1.1 s by a bleed of 1 MΩ across 0.47 µF; 4.7 nF are not counted", () => {
    const found = storedEnergy(machine(), new Set(), true);
    expect(found.map((one) => one.part)).toEqual(["filter"]);
    // 0.47 s × ln(325 V / 34 V)
    expect(found[0]?.bleedSeconds).toBeCloseTo(1.06, 2);
  });

  test("of a motor module's 330 µF behind its rectifier is 17 J at the crest of the mains, 325 V, 75 s by its 100 kΩ (trade's table of cautions)", () => {
    const builder = new MachineBuilder();
    builder.element("module.charge", "V=", "b1", "minus", 320);
    builder.element("module.bus", "C", "plus", "minus", 330e-6);
    builder.element("module.bleed", "R", "plus", "minus", 100e3);
    const built = builder.build();
    const parts = built.parts.map((part) => ({ ...part, access: "front" }));
    const [bus] = storedEnergy({ ...built, parts }, new Set(["front"]), false);
    expect(bus?.store).toBe("bus");
    expect(bus?.volts).toBeCloseTo(325.3, 1);
    expect(bus?.joules).toBeCloseTo(17.46, 2);
    expect(bus?.bleedSeconds).toBeCloseTo(74.5, 1);
  });

  test("is not met where nothing is opened and no pin is touched", () => {
    expect(storedEnergy(machine(), new Set(["top"]), false)).toEqual([]);
  });

  test("comes with two lines of caution at most", () => {
    for (const code of [
      "run-capacitor",
      "bus-capacitor",
      "filter-capacitor",
      "prove-dead",
      "clipped",
      "insulation",
    ] as const) {
      expect(caution(code).lines.length).toBeGreaterThan(0);
      expect(caution(code).lines.length).toBeLessThanOrEqual(2);
    }
  });
});
