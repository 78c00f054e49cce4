import { describe, expect, test } from "vitest";
import { commonestType, shippedTrial } from "../../../test/machines/shipped-trial.ts";
import { seeded } from "../chance/index.ts";
import { probeOf } from "../predict/index.ts";
import { combinations } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import { caseFrom } from "../suspect/index.ts";
import { oneSlotWrong, ownerOf, partLeftOut, ratesOff, without } from "./wrong-sheet.ts";

const ask = shippedTrial("tumble-dryer");
const { truth } = commonestType(ask);
const [own] = truth.foresights;
const caseOf = (foresight: typeof own) => caseFrom([{ foresight, weight: 1 }], { pairsAtMost: 500 });

describe("a sheet that is wrong", () => {
  test("in its rates has every share times 3 or a third, all modes of one part alike, both about as often", () => {
    const factors = new Map<string, number>();
    for (const [m, mode] of ratesOff(own, seeded("rates")).modes.entries()) {
      const factor = mode.share / own.modes[m].share;
      const owner = ownerOf(mode, own.machine);
      expect(factor).toBeCloseTo(factors.get(owner) ?? (factor > 1 ? 3 : 1 / 3), 9);
      factors.set(owner, factor);
    }
    const up = [...factors.values()].filter((factor) => factor > 1).length / factors.size;
    expect(up).toBeGreaterThan(0.35);
    expect(up).toBeLessThan(0.65);
  });

  test("in a variant differs from the machine in one slot where the sheet allows that", () => {
    const types = combinations(ask.sheet);
    const right = own.machine.choice;
    const wrong = oneSlotWrong(right, types, seeded("slot"));
    const differing = [...new Set([...right.keys(), ...wrong.keys()])].filter(
      (slot) => right.get(slot) !== wrong.get(slot),
    );
    expect(differing).toHaveLength(1);
  });

  test("without a part never blames it, and leaves out often what fails often", () => {
    const lacking = caseOf(without(own, "run-cap"));
    expect(lacking.hypotheses.some(({ modes }) => modes.some((mode) => ownerOf(mode, own.machine) === "run-cap"))).toBe(
      false,
    );
    const left = Array.from({ length: 400 }, (_, n) => partLeftOut(own, seeded(`left ${n}`)));
    expect(left.filter((owner) => owner === "lint").length).toBeGreaterThan(20);
  });

  test("without the capacitor lets something not on this sheet rise when it reads a tenth, from under 1 in 10 to over even odds", () => {
    const meter = ask.meters.get("capacitance");
    if (meter === undefined) throw new Error("the shipped capacitance meter is gone");
    const low: Observation = {
      kind: "reading",
      probe: probeOf({
        quantity: "farads",
        from: "run-cap.a",
        to: "run-cap.b",
        state: { kind: "dead", pulled: [], freed: ["run-cap"], hands: new Map() },
      }),
      meter,
      leads: "nulled",
      shown: { kind: "value", value: 0.8e-6 },
    };
    const hums: Observation = { kind: "sign", sign: "hums only", answer: "yes", witness: "seen" };
    const unknown = (the: typeof truth): number => the.update([hums, low]).notOnThisSheet;
    expect(unknown(truth)).toBeLessThan(0.1);
    expect(unknown(caseOf(without(own, "run-cap")))).toBeGreaterThan(0.5);
  });
});
