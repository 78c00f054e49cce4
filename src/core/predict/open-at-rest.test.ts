import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { modesOf } from "../fault/index.ts";
import { openAtRest } from "./open-at-rest.ts";
import { Predictor } from "./predictor.ts";
import { probeOf } from "./probe.ts";

const machine = shippedMachine("tumble-dryer", { stages: "two", protectors: "self-resetting and one-shot" });
const predictor = new Predictor(machine, modesOf(machine));
const between = (from: string, to: string, pulled: readonly string[] = []) =>
  openAtRest(
    predictor,
    probeOf({ quantity: "ohms", from, to, state: { kind: "dead", pulled, freed: [], hands: new Map() } }),
  )?.id;

test.each([
  ["X3.1", "X3.3", ["X3"], "run-contact"],
  ["X3.3", "X3.2", ["X3"], "run-contact"],
  ["run-contact.a", "run-contact.b", [], "run-contact"],
  ["heat-relay-2.11", "heat-relay-2.14", [], "heat-relay-2"],
] as const)("%s to %s reads OL with %j pulled because %s is open at rest", (from, to, pulled, part) => {
  expect(between(from, to, pulled)).toBe(part);
});

test("two points that nothing could join have no such reason", () => {
  expect(between("heater.s1", "heater.case")).toBeUndefined();
});
