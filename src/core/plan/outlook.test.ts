import { describe, expect, test } from "vitest";
import { HAND_SHOP, type HandPart, handCase, handMachine } from "../../../test/machines/hand-case.ts";
import { outlook } from "./outlook.ts";

// A minute costs 1; a new machine 500; call-out 40: set out in `HAND_SHOP`.
const shop = { ...HAND_SHOP, callOut: 40, newMachine: 500 };
const parts: HandPart[] = [
  { id: "pump", part: 0.1, minutes: 30, cured: 0.9 },
  { id: "fuse", part: 0, minutes: 10, cured: 0.8 },
];
const machine = handMachine(parts);
const told = (odds: readonly (readonly [readonly string[], number])[]) => {
  const { case: the, belief } = handCase(machine, parts, odds, {});
  return outlook(the, belief, shop);
};

describe("the outlook on the telephone", () => {
  const both = told([
    [["pump"], 0.6],
    [["fuse"], 0.3],
    [[], 0.1],
  ]);

  test("one visit: 0.3 × 0.8 from the van; with the pump loaded 0.6 × 0.9 more; what the sheet does not know never counts", () => {
    expect(both.oneVisit).toBeCloseTo(0.24, 12);
    expect(both.oneVisitLoaded).toBeCloseTo(0.24 + 0.54, 12);
  });

  test("loads the pump, wanted 6 times in 10, at a tenth of 500", () => {
    expect(both.load).toEqual([{ on: "pump", says: "pump: new", price: 50, p: expect.closeTo(0.6, 12) }]);
  });

  test("price: 40 + 10 for the fuse to 40 + 30 + 50 for the pump", () => {
    expect(both.price).toEqual({ lo: 50, hi: 120 });
  });

  test("two faults together need both cured: 0.9 × 0.8, and cost both: 40 + 30 + 50 + 10", () => {
    const pair = told([[["pump", "fuse"], 1]]);
    expect(pair.oneVisit).toBe(0);
    expect(pair.oneVisitLoaded).toBeCloseTo(0.72, 12);
    expect(pair.price).toEqual({ lo: 130, hi: 130 });
  });

  test("a fault that no one knows has no price", () => {
    expect(told([[[], 1]])).toEqual({ oneVisit: 0, oneVisitLoaded: 0, load: [] });
  });
});
