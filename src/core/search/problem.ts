import type { PlanTable } from "./table.ts";

/**
 * A table in flat arrays, for the search. Causes that cannot be present (prior 0) are left out; a group that costs
 * nothing is no group.
 */
export interface Problem {
  readonly causes: number;
  readonly tests: number;
  readonly groups: number;
  /** Index of each cause in the table. */
  readonly tableCause: Int32Array;
  readonly prior: Float64Array;
  readonly repairCost: Float64Array;
  /** Group of each repair, -1 for none. */
  readonly repairGroup: Int32Array;
  readonly testCost: Float64Array;
  readonly testGroup: Int32Array;
  readonly groupCost: Float64Array;
  /** Cost of stopping; infinite where it is not allowed. */
  readonly stop: number;
  /** First outcome of each test in the list of all outcomes; one more entry closes the list. */
  readonly outcomeStart: Int32Array;
  /** Chance of outcome `o` (in the list of all outcomes) under cause `i`: `chance[o * causes + i]`. */
  readonly chance: Float64Array;
  /** Sum over the outcomes of p ln p, of test `j` under cause `i`: `negEntropy[j * causes + i]`, in nats. */
  readonly negEntropy: Float64Array;
}

/** Lays a table out for the search. */
export function problemOf(table: PlanTable): Problem {
  const present = table.causes.flatMap((cause, c) => (cause.prior > 0 ? [c] : []));
  const causes = present.length;
  const tests = table.tests.length;
  const paying = (group: number): number => (group >= 0 && table.groups[group].cost > 0 ? group : -1);
  const outcomeStart = new Int32Array(tests + 1);
  table.tests.forEach((test, j) => {
    outcomeStart[j + 1] = outcomeStart[j] + (test.chance[0]?.length ?? 0);
  });
  const chance = new Float64Array(outcomeStart[tests] * causes);
  const negEntropy = new Float64Array(tests * causes);
  table.tests.forEach((test, j) => {
    present.forEach((c, i) => {
      test.chance[c].forEach((p, o) => {
        chance[(outcomeStart[j] + o) * causes + i] = p;
        if (p > 0) negEntropy[j * causes + i] += p * Math.log(p);
      });
    });
  });
  return {
    causes,
    tests,
    groups: table.groups.length,
    tableCause: Int32Array.from(present),
    prior: Float64Array.from(present, (c) => table.causes[c].prior),
    repairCost: Float64Array.from(present, (c) => table.causes[c].repairCost),
    repairGroup: Int32Array.from(present, (c) => paying(table.causes[c].repairGroup)),
    testCost: Float64Array.from(table.tests, (test) => test.cost),
    testGroup: Int32Array.from(table.tests, (test) => paying(test.group)),
    groupCost: Float64Array.from(table.groups, (group) => group.cost),
    stop: table.stop ?? Number.POSITIVE_INFINITY,
    outcomeStart,
    chance,
    negEntropy,
  };
}
