import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seeded } from "../chance/index.ts";
import type { PlanTable } from "./table.ts";
import { type First, weighFirst } from "./weigh-first.ts";

/** A small table of remedies that may fail and overlap, from a seed; invented. */
function drawn(sizes: { causes: number; tests: number; remedies: number; groups: number }, seed: number): PlanTable {
  const random = seeded(`remedies/${JSON.stringify(sizes)}/${seed}`);
  const share = Array.from({ length: sizes.causes }, () => 0.05 + random.uniform());
  const total = share.reduce((sum, x) => sum + x, 0);
  const group = (): number => (random.uniform() < 0.5 ? Math.floor(random.uniform() * (sizes.groups + 1)) - 1 : -1);
  const remedies = Array.from({ length: sizes.remedies }, (_, r) => ({
    id: `r${r}`,
    cost: 2 + 30 * random.uniform(),
    extra: share.map(() => (random.uniform() < 0.5 ? 0 : 10 * random.uniform())),
    group: group(),
    cures: share.map((_, c) => {
      if (c !== r % sizes.causes && random.uniform() < 0.6) return 0;
      return random.uniform() < 0.4 ? 1 : 0.2 + 0.75 * random.uniform();
    }),
  }));
  return {
    causes: share.map((x, c) => ({
      id: `c${c}`,
      prior: x / total,
      repairCost: Number.POSITIVE_INFINITY,
      repairGroup: -1,
    })),
    groups: Array.from({ length: sizes.groups }, (_, g) => ({ id: `g${g}`, cost: 1 + 8 * random.uniform() })),
    tests: Array.from({ length: sizes.tests }, (_, j) => ({
      id: `t${j}`,
      cost: 0.3 + 4 * random.uniform(),
      group: group(),
      chance: share.map(() => {
        const p = random.uniform() < 0.4 ? Math.round(random.uniform()) : random.uniform();
        return [p, 1 - p];
      }),
    })),
    remedies,
    stop: 20 + 60 * random.uniform(),
  };
}

/** The definition: everything that could be done, in every order, without bounds. */
function leastCost(table: PlanTable, first?: First): number {
  const { tests, remedies, groups, stop = Number.NaN } = table;
  const best = (
    weights: readonly number[],
    done: ReadonlySet<string>,
    open: ReadonlySet<number>,
    only?: First,
  ): number => {
    const whole = weights.reduce((sum, w) => sum + w, 0);
    if (whole === 0) return 0;
    let least = only === undefined || only.do === "stop" ? whole * stop : Number.POSITIVE_INFINITY;
    const after = (id: string, group: number): [ReadonlySet<string>, ReadonlySet<number>] => [
      new Set([...done, id]),
      group < 0 ? open : new Set([...open, group]),
    ];
    const access = (group: number): number => (group >= 0 && !open.has(group) ? groups[group].cost : 0);
    const allowed = (kind: string, id: string): boolean =>
      !done.has(id) && (only === undefined || (only.do === kind && only.do !== "stop" && only.id === id));
    for (const test of tests) {
      if (!allowed("test", test.id)) continue;
      let cost = whole * (test.cost + access(test.group));
      for (const o of [0, 1])
        cost += best(
          weights.map((w, c) => w * test.chance[c][o]),
          ...after(test.id, test.group),
        );
      least = Math.min(least, cost);
    }
    for (const remedy of remedies) {
      if (!allowed("remedy", remedy.id)) continue;
      const extra = weights.reduce((sum, w, c) => sum + w * remedy.extra[c], 0);
      const failed = weights.map((w, c) => w * (1 - remedy.cures[c]));
      const paid = whole * (remedy.cost + access(remedy.group)) + extra;
      least = Math.min(least, paid + best(failed, ...after(remedy.id, remedy.group)));
    }
    return least;
  };
  return best(
    table.causes.map(({ prior }) => prior),
    new Set(),
    new Set(),
    first,
  );
}

const anyTable = fc
  .record({
    causes: fc.integer({ min: 1, max: 4 }),
    tests: fc.integer({ min: 0, max: 3 }),
    remedies: fc.integer({ min: 1, max: 4 }),
    groups: fc.integer({ min: 0, max: 2 }),
    seed: fc.integer({ min: 0, max: 9999 }),
  })
  .map(({ seed, ...sizes }) => drawn(sizes, seed));

describe("remedies that may fail, against plain recursion over everything that could be done", () => {
  it("cost the optimum, proved, and the first action is optimal, on 300 tables of up to 4 causes, 3 tests, 4 remedies (seed 1)", () => {
    fc.assert(
      fc.property(anyTable, (table) => {
        const least = leastCost(table);
        const weighed = weighFirst(table, 20_000);
        expect(weighed.exact).toBe(true);
        expect(Math.abs(weighed.expectedCost - least)).toBeLessThanOrEqual(1e-9 * least);
        expect(leastCost(table, weighed.first)).toBeLessThanOrEqual(least * (1 + 1e-9));
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it("are never bounded above the optimum nor promised below it, with work 1 to 6, on 400 tables (seed 2)", () => {
    fc.assert(
      fc.property(anyTable, fc.integer({ min: 1, max: 6 }), (table, work) => {
        const least = leastCost(table);
        const { lowerBound, expectedCost } = weighFirst(table, work);
        expect(lowerBound).toBeLessThanOrEqual(least * (1 + 1e-12));
        expect(expectedCost).toBeGreaterThanOrEqual(least * (1 - 1e-12));
      }),
      { seed: 2, numRuns: 400 },
    );
  });

  it("hold any other first action at its true worth between its bounds, on 200 tables (seed 3)", () => {
    fc.assert(
      fc.property(anyTable, fc.nat(), fc.constantFrom(2, 5000), (table, pick, work) => {
        const actions: First[] = [
          { do: "stop" },
          ...table.tests.map(({ id }): First => ({ do: "test", id })),
          ...table.remedies.map(({ id }): First => ({ do: "remedy", id })),
        ];
        const other = actions[pick % actions.length];
        const truth = leastCost(table, other);
        const { other: worth, expectedCost } = weighFirst(table, work, other);
        if (worth === undefined) throw new Error("the other was not weighed");
        expect(worth.lowerBound).toBeLessThanOrEqual(truth * (1 + 1e-12));
        expect(worth.expectedCost).toBeGreaterThanOrEqual(truth * (1 - 1e-12));
        expect(expectedCost).toBeLessThanOrEqual(worth.expectedCost * (1 + 1e-9));
        if (work > 2) expect(Math.abs(worth.expectedCost - truth)).toBeLessThanOrEqual(1e-8 * truth);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it("clean at 7 in 10 for 20, then a new part for 90, is 47; stopping at 40 goes before the part", () => {
    const table = (stop: number): PlanTable => ({
      causes: [{ id: "c0", prior: 1, repairCost: Number.POSITIVE_INFINITY, repairGroup: -1 }],
      groups: [],
      tests: [],
      remedies: [
        { id: "clean", cost: 20, extra: [0], group: -1, cures: [0.7] },
        { id: "new", cost: 90, extra: [0], group: -1, cures: [1] },
      ],
      stop,
    });
    expect(weighFirst(table(500), 100).expectedCost).toBeCloseTo(47, 12);
    expect(weighFirst(table(40), 100).expectedCost).toBeCloseTo(32, 12);
  });
});
