import { describe, expect, test } from "vitest";
import { commonestType, shippedTrial } from "../../../test/machines/shipped-trial.ts";
import { gammaSf, seeded } from "../chance/index.ts";
import { drawMachine } from "./drawn-machine.ts";
import { ownerOf } from "./wrong-sheet.ts";

const { truth } = commonestType(shippedTrial("tumble-dryer"));
const [{ machine }] = truth.candidates;
const DRAWS = 6000;
const drawn = Array.from({ length: DRAWS }, (_, n) =>
  drawMachine(truth, seeded("draws").fork(String(n)), { spread: true }),
);

/** P(χ² above this) for counts against shares; what is expected fewer than five times is one class. */
function chiSquareTail(counts: ReadonlyMap<string, number>, shares: ReadonlyMap<string, number>): number {
  let square = 0;
  let classes = 0;
  const rest = { counted: 0, expected: 0 };
  for (const [name, share] of shares) {
    const counted = counts.get(name) ?? 0;
    const expected = share * DRAWS;
    if (expected < 5) {
      rest.counted += counted;
      rest.expected += expected;
      continue;
    }
    square += (counted - expected) ** 2 / expected;
    classes++;
  }
  if (rest.expected >= 5) {
    square += (rest.counted - rest.expected) ** 2 / rest.expected;
    classes++;
  }
  return gammaSf(square / 2, (classes - 1) / 2);
}

const add = (map: Map<string, number>, name: string, x: number) => map.set(name, (map.get(name) ?? 0) + x);

describe("6000 drawn dryers", () => {
  test("fail as often, part by part, as the sheet says: chi-square, tail above 1 in 10,000", () => {
    const shares = new Map<string, number>();
    let whole = 0;
    for (const { modes, logPrior } of truth.hypotheses) {
      if (modes.length === 0) continue;
      add(shares, ownerOf(modes[0], machine), Math.exp(logPrior));
      whole += Math.exp(logPrior);
    }
    for (const [name, share] of shares) shares.set(name, share / whole);
    const counts = new Map<string, number>();
    for (const { faults } of drawn) add(counts, ownerOf(faults[0], machine), 1);
    expect(shares.size).toBeGreaterThan(50);
    expect(chiSquareTail(counts, shares)).toBeGreaterThan(1e-4);
  });

  test("have lint to torn belt as their shares in the sheet, alone or with another fault: within 4 standard errors", () => {
    const met = (name: string): number =>
      drawn.filter(({ faults }) => faults.some((mode) => ownerOf(mode, machine) === name)).length;
    const shareOf = (name: string): number =>
      truth.candidates[0].modes
        .filter((mode) => ownerOf(mode, machine) === name)
        .reduce((sum, { share }) => sum + share, 0);
    const [lint, belt] = [met("lint"), met("belt")];
    // The log of a ratio of two counts spreads by √(1/a + 1/b): delta method.
    const spread = Math.sqrt(1 / lint + 1 / belt);
    expect(Math.abs(Math.log(lint / belt / (shareOf("lint") / shareOf("belt"))))).toBeLessThan(4 * spread);
    expect(spread).toBeLessThan(0.1);
  });

  test("have two faults as often as the odds hold pairs, about one in ten: within 1 in 100", () => {
    let pairs = 0;
    let whole = 0;
    for (const { modes, logPrior } of truth.hypotheses) {
      if (modes.length > 0) whole += Math.exp(logPrior);
      if (modes.length > 1) pairs += Math.exp(logPrior);
    }
    const found = drawn.filter(({ faults }) => faults.length > 1).length / DRAWS;
    expect(Math.abs(found - pairs / whole)).toBeLessThan(0.01);
    expect(found).toBeGreaterThan(0.07);
    expect(found).toBeLessThan(0.2);
  });

  test("fail now and then as often as the odds hold it, on 1, 5 or 9 operations of ten", () => {
    let fitful = 0;
    let whole = 0;
    for (const { modes, logPrior, failsOn } of truth.hypotheses) {
      if (modes.length > 0) whole += Math.exp(logPrior);
      if (failsOn < 1) fitful += Math.exp(logPrior);
    }
    const found = drawn.filter(({ failsOn }) => failsOn < 1);
    expect(Math.abs(found.length / DRAWS - fitful / whole)).toBeLessThan(0.015);
    expect([...new Set(found.map(({ failsOn }) => failsOn))].sort()).toEqual([0.1, 0.5, 0.9]);
  });

  test("have numbers of their own within each tolerance, and none with a spread left", () => {
    const wide = machine.parameters.findIndex(({ rated }) => rated.spread !== "exact" && rated.hi > rated.lo * 1.05);
    const { lo, hi } = machine.parameters[wide].rated;
    const values = drawn.map((one) => one.machine.parameters[wide].rated);
    expect(values.every(({ spread }) => spread === "exact")).toBe(true);
    expect(new Set(values.map(({ nominal }) => nominal)).size).toBeGreaterThan(DRAWS * 0.99);
    const inside = values.filter(({ nominal }) => nominal >= lo && nominal <= hi).length / DRAWS;
    expect(inside).toBeGreaterThan(0.94);
  });

  test("are the same for the same seed", () => {
    const again = drawMachine(truth, seeded("draws").fork("17"), { spread: true });
    expect(again.faults.map(({ id }) => id)).toEqual(drawn[17].faults.map(({ id }) => id));
    expect(again.machine.parameters).toEqual(drawn[17].machine.parameters);
  });
});
