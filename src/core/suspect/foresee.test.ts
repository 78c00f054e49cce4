import { describe, expect, it } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { foreseeing } from "./foresee.ts";

describe("a leak to the case", () => {
  const foresight = foreseeing(shippedMachine("tumble-dryer"));
  const trips = foresight.machine.signs.find(({ id }) => id === "trips the RCD");

  it("of some size trips two RCDs of three, since they act somewhere between 15 and 30 mA", () => {
    if (trips === undefined) throw new Error("no sign of tripping");
    const never = trips.answers.indexOf("never");
    const shares = foresight.atoms
      .filter(({ mode }) => mode.id === "heater/leaks to case")
      .map((atom) => foresight.answers(trips, [atom])[never]);
    expect(shares.some((p) => Math.abs(p - 1 / 3) < 1e-9)).toBe(true);
    expect(shares.some((p) => p === 0)).toBe(true);
    expect(shares.some((p) => p === 1)).toBe(true);
  });
});

describe("what the control drives", () => {
  const foresight = foreseeing(shippedMachine("tumble-dryer", { control: "board with two heater poles" }));

  it("in the heat step is the heater of a good machine, and not with its sensor open", () => {
    const good = foresight.commands("heat", []);
    expect([...good].some((output) => output.startsWith("heat-out"))).toBe(true);
    const sensor = foresight.atoms.find(({ mode }) => mode.id.startsWith("ntc/open"));
    if (sensor === undefined) throw new Error("no open sensor");
    expect([...foresight.commands("heat", [sensor])].some((output) => output.startsWith("heat-out"))).toBe(false);
  });
});
