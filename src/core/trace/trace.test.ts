import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { traceBetween } from "./index.ts";

const machine = shippedMachine("tumble-dryer", { stages: "one", control: "board with two heater poles" });
const parts = (from: string, to: string, cut?: { pulled: string[]; freed: string[] }) =>
  traceBetween(machine, from, to, cut).flatMap((one) => (one.kind === "part" ? [one.id] : []));

test("between the pins of the heater's connector lie the heater and its protectors, in order", () => {
  expect(parts("X3.1", "X3.3")[0]).toBe("heater");
  expect(parts("X3.1", "X3.3").length).toBeGreaterThan(1);
  expect(parts("X3.3", "X3.1")).toEqual([...parts("X3.1", "X3.3")].reverse());
});

test("with the heater's wires off there is another way or none, never through the heater", () => {
  expect(parts("X3.1", "X3.3", { pulled: [], freed: ["heater"] })).not.toContain("heater");
});

test("a point to itself, and an unknown point, give nothing", () => {
  expect(traceBetween(machine, "X3.1", "X3.1")).toEqual([]);
  expect(traceBetween(machine, "X3.1", "X99.1")).toEqual([]);
});
