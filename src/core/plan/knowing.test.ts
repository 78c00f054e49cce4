import { expect, test } from "vitest";
import { BasePolicy } from "./base-policy.ts";
import { priceOfKnowing, toldByCells } from "./knowing.ts";
import { LeafValue } from "./leaf-value.ts";

test("to know is bought from the best bargain on, each to its end: 0.25 nats for 1, 1 nat for 12, 2 nats for 40", () => {
  const curve = [
    { nats: 0.5, price: 2 },
    { nats: 0.5, price: 10 },
    { nats: 100, price: 2800 },
  ];
  expect(priceOfKnowing(curve, 0.25)).toBeCloseTo(1, 12);
  expect(priceOfKnowing(curve, 1)).toBeCloseTo(12, 12);
  expect(priceOfKnowing(curve, 2)).toBeCloseTo(40, 12);
});

test("where eight suspects are dear to test one by one, readings that halve keep the job from stopping", () => {
  const suspects = Array.from({ length: 8 }, (_, n) => n);
  const policy = new BasePolicy({
    targets: suspects.map((n) => ({
      id: `t${n}`,
      says: `t${n}`,
      check: 60,
      tells: 1,
      checkGroups: [],
      mendGroups: [],
      forNothing: 40,
      endless: false,
    })),
    groups: [],
    targetOf: Int32Array.from(suspects),
    cure: new Float64Array(8).fill(80),
    stop: 287,
  });
  const leaf = new LeafValue(policy, [], new Uint8Array(0));
  const even = suspects.map(() => 1 / 8);
  expect(policy.cost(even, [])).toBe(287);
  // Three halvings of ln 2 nats at 5 each, and the repair.
  leaf.curve = [{ nats: 3 * Math.LN2, price: 15 }];
  expect(leaf.testing(even, new Uint8Array(0))).toBeCloseTo(95, 9);
});

test("told by cells: of four equal suspects at three places a halving tells 1.5 ln 2 - 0.5 ln 2, a blank nothing", () => {
  // Two of the four are mended at one place: doubt of 1.5 ln 2 before; after, those two leave none, the others ln 2.
  const board = {
    live: { hypotheses: Int32Array.of(0, 1, 2, 3), weights: Float64Array.of(0.25, 0.25, 0.25, 0.25) },
    ground: { targets: [{}, {}, {}], targetOf: Int32Array.of(0, 0, 1, 2) },
  };
  const halving = [{ weights: [0.25, 0.25, 0, 0] }, { weights: [0, 0, 0.25, 0.25] }];
  expect(toldByCells(board, halving)).toBeCloseTo(Math.LN2, 12);
  expect(toldByCells(board, [{ weights: [0.25, 0.25, 0.25, 0.25] }])).toBeCloseTo(0, 12);
});
