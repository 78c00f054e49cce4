import { expect, test } from "vitest";
import { smallDryer } from "../../../test/machines/small-dryer.ts";
import { openRunner, runMachine } from "./index.ts";

test("a good small dryer heats with 2.3 kW from seconds on, says nothing and opens nothing", () => {
  const { machine, heater } = smallDryer();
  const runner = openRunner(machine);
  const run = runner.healthy;
  expect(run.reached).toEqual(["plugged-in", "turn", "heat"]);
  expect(run.said).toEqual([]);
  expect(run.wouldOpen).toEqual([]);
  expect(run.hunts).toEqual([]);
  const watts = (key: string) =>
    run.pictures.get(key)?.members.map((member) => runner.restore([], member, key).live.watts(heater)) ?? [];
  expect(watts("turn@end")[0]).toBe(0);
  expect(watts("heat@seconds")[0]).toBeGreaterThan(2250);
  expect(watts("heat@end")).toHaveLength(1);
});
