import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { tiedTo } from "../predict/index.ts";
import type { Machine } from "../sheet/index.ts";
import { drivingStep } from "./driving-step.ts";
import type { Scene } from "./scene.ts";

/** As much of a scene as the step is chosen by. */
function stepAt(machine: Machine, plug: string): string | undefined {
  const at = (id: string): number => machine.points.find((point) => point.id === id)?.node ?? -1;
  const poles = { line: tiedTo(machine, [at("plug.L")]), neutral: tiedTo(machine, [at("plug.N")]) };
  const nodes = machine.points.filter(({ id }) => id.startsWith(`${plug}.`)).map(({ node }) => node);
  return drivingStep({ machine, poles } as unknown as Scene)(nodes)?.id;
}

// What hangs at each connector was read off the sheets by eye: at X7 both coils of the inlet valve, which only the top-up
// drives together.
test.each([
  ["washing-machine", { motor: "brushes and a triac" }, "X3", "heat"],
  ["washing-machine", { motor: "brushes and a triac" }, "X7", "top-up"],
  ["washing-machine", { motor: "brushes and a triac" }, "X4", "wash"],
  ["tumble-dryer", { control: "board with two heater poles" }, "X3", "heat"],
])("%s (%o): volts at %s are read in the step %s", (sheet, answers, plug, step) => {
  expect(stepAt(shippedMachine(sheet, answers), plug)).toBe(step);
});
