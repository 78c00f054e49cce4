import { describe, expect, test } from "vitest";
import { accessGroup, HAND_SHOP, type HandPart, handMachine } from "../../../test/machines/hand-case.ts";
import { ids, type Odds, plan, signRule, type Tables } from "../../../test/machines/hand-plan.ts";
import { priceOf } from "../remedy/index.ts";

const four: HandPart[] = [
  { id: "pump", part: 0.1, access: "back" },
  { id: "belt", part: 0.1, access: "side" },
  { id: "lamp", part: 0.1, access: "back" },
  { id: "door", part: 0.1, access: "side" },
];
const machine = handMachine(four, {
  access: [accessGroup("back", 12), accessGroup("side", 12)],
  signs: [signRule("hums"), signRule("dark")],
});
const odds: Odds = four.map(({ id }) => [[id], 1]);
/** Each sign by itself tells two parts from two others; both together tell all four. */
const tables: Tables = {
  "told:hums": {
    outcomes: ["yes", "no"],
    chance: (faulty) => (faulty.some((id) => id === "pump" || id === "lamp") ? [0.95, 0.05] : [0.05, 0.95]),
  },
  "told:dark": {
    outcomes: ["yes", "no"],
    chance: (faulty) => (faulty.some((id) => id === "lamp" || id === "door") ? [0.95, 0.05] : [0.05, 0.95]),
  },
};

describe("the next step, searched to the end", () => {
  const quick = plan(machine, four, odds, tables);
  const made = plan(machine, four, odds, tables, { refineWork: 3000 });
  const { refined } = made;
  if (refined === undefined) throw new Error("it was not refined");

  test("keeps the order of its figures: no cost under the bound, no quick step cheaper than the best", () => {
    expect(refined.lowerBound).toBeLessThanOrEqual(refined.expectedCost);
    expect(refined.expectedCost).toBeLessThanOrEqual(refined.quick.expectedCost * (1 + 1e-9));
    expect(refined.quick.lowerBound).toBeLessThanOrEqual(refined.quick.expectedCost);
    expect(refined.leftOut).toBeLessThan(0.02);
    expect([refined.causes, refined.quick.step]).toEqual([4, ids(quick)[0]]);
  });

  test("names as the best a step of the plan, and puts it first without losing any other", () => {
    expect(ids(made)[0]).toBe(refined.step);
    expect([...ids(made)].sort()).toEqual([...new Set([...ids(quick), refined.step])].sort());
  });

  test("is the same when made again, and its bound never falls with more work", () => {
    expect(plan(machine, four, odds, tables, { refineWork: 3000 }).refined).toEqual(refined);
    const short = plan(machine, four, odds, tables, { refineWork: 5 }).refined;
    expect(short?.lowerBound).toBeLessThanOrEqual(refined.lowerBound * (1 + 1e-12));
    expect(short?.expectedCost).toBeGreaterThanOrEqual(refined.expectedCost * (1 - 1e-12));
  });

  test("costs at least what mending a known fault costs, and no more than stopping", () => {
    // The least there is: the cheapest known fault, its cover once, by the hand-made shop.
    expect(refined.lowerBound).toBeGreaterThan(priceOf(12, HAND_SHOP));
    expect(refined.expectedCost).toBeLessThanOrEqual(made.stopCost);
  });
});

test("what comes next is no choice while a repair has not been looked at: nothing is searched", () => {
  const repair = { event: "e1", remedy: "new", on: "pump", looked: false, path: [] };
  const made = plan(machine, four, odds, tables, { refineWork: 100, state: { repairs: [repair] } });
  expect(made.steps[0]?.do).toBe("verify");
  expect(made.refined).toBeUndefined();
});
