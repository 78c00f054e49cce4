import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BasePolicy, type Ground, type Target } from "./base-policy.ts";

const NO_CHECK = Number.POSITIVE_INFINITY;

interface Line {
  readonly p: number;
  readonly cure: number;
  readonly check?: number;
  readonly tells?: number;
  readonly group?: number;
}

function ground(lines: readonly Line[], groups: readonly number[], stop: number): Ground {
  const targets: Target[] = lines.map((line, n) => ({
    id: `t${n}`,
    says: `t${n}`,
    check: line.check ?? NO_CHECK,
    tells: line.tells ?? 1,
    checkGroups: line.group === undefined ? [] : [line.group],
    mendGroups: line.group === undefined ? [] : [line.group],
    forNothing: 0,
    endless: false,
  }));
  return {
    targets,
    groups: groups.map((cost, n) => ({ id: `g${n}`, cost })),
    targetOf: Int32Array.from(lines.keys()),
    cure: Float64Array.from(lines, (line) => line.cure),
    stop,
  };
}

function costOf(lines: readonly Line[], groups: readonly number[] = [], stop = 1e6): number {
  const policy = new BasePolicy(ground(lines, groups, stop));
  return policy.cost(
    lines.map((line) => line.p),
    groups.map(() => 0),
  );
}

describe("the base policy", () => {
  test("guesses in order of p over c: 32 for priors .6 .4 and repairs 20 30", () => {
    expect(
      costOf([
        { p: 0.6, cure: 20 },
        { p: 0.4, cure: 30 },
      ]),
    ).toBeCloseTo(32, 9);
  });

  test("pays a cover once for all behind it: 23.6 for two repairs behind a cover of 6", () => {
    const lines = [
      { p: 0.5, cure: 10, group: 0 },
      { p: 0.3, cure: 12, group: 0 },
      { p: 0.2, cure: 8 },
    ];
    expect(costOf(lines, [6])).toBeCloseTo(23.6, 9);
  });

  test("stops where going on costs more: 46 with a stop of 52 and a last repair of 90", () => {
    const lines = [
      { p: 0.5, cure: 20 },
      { p: 0.25, cure: 40 },
      { p: 0.25, cure: 90 },
    ];
    // Mend the first (20 for all), then stop for the half that is left (26); going on to the second would make it 53.
    expect(costOf(lines, [], 52)).toBeCloseTo(46, 9);
  });

  test("is never dearer than any order in which every target is tested, over 200 random problems (seed 7)", () => {
    const line = fc.record({
      p: fc.double({ min: 0.01, max: 1, noNaN: true }),
      check: fc.double({ min: 0.5, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(line, { minLength: 2, maxLength: 5 }), (drawn) => {
        // Repairs far dearer than tests, so that every target is tested and only the order is in question.
        const lines = drawn.map((one) => ({ ...one, cure: 1e5 }));
        const ours = costOf(lines, [], 1e9);
        for (const order of orders(lines.map((_, n) => n))) {
          let left = lines.reduce((sum, one) => sum + one.p, 0);
          let cost = 0;
          for (const index of order) {
            const one = lines[index] as (typeof lines)[number];
            cost += left * one.check + one.p * one.cure;
            left -= one.p;
          }
          expect(ours).toBeLessThanOrEqual(cost * (1 + 1e-12));
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  test("knows that one test fewer is needed for the last one left: 3 for two equals tested at 2 each", () => {
    // Test one (2 for all): half are it; the rest is the other, mended on the chance: 2 + cures of 1.
    expect(
      costOf([
        { p: 0.5, cure: 1000, check: 2 },
        { p: 0.5, cure: 1000, check: 2 },
      ]),
    ).toBeCloseTo(1002, 9);
  });

  test("saves with a test that takes away 7 of 10 doubts just that share of the needless repairs", () => {
    const stop = 1e6;
    const sure = costOf(
      [
        { p: 0.5, cure: 100, check: 2 },
        { p: 0.5, cure: 100 },
      ],
      [],
      stop,
    );
    const doubtful = costOf(
      [
        { p: 0.5, cure: 100, check: 2, tells: 0.7 },
        { p: 0.5, cure: 100 },
      ],
      [],
      stop,
    );
    expect(sure).toBeCloseTo(102, 9);
    // Three in ten of the half that is the other are mended needlessly for 100.
    expect(doubtful).toBeCloseTo(102 + 0.3 * 0.5 * 100, 9);
  });

  test("costs nothing for nothing, and scales with the weights", () => {
    const lines = [
      { p: 0.6, cure: 20 },
      { p: 0.4, cure: 30 },
    ];
    const policy = new BasePolicy(ground(lines, [], 100));
    expect(policy.cost([0, 0], [])).toBe(0);
    expect(policy.cost([6, 4], [])).toBeCloseTo(320, 9);
    expect(policy.least([0.6, 0.4])).toBeCloseTo(24, 9);
  });
});

function orders(items: readonly number[]): number[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((item) => orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}
