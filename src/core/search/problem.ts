import type { PlanTable, TableRemedy, TableTest } from "./table.ts";

/**
 * A table in flat arrays, for the search. Causes that cannot be present (prior 0) are left out; a group that costs
 * nothing is no group. A remedy is a test with two outcomes, of which the first, mended, ends the work: remedies follow
 * the tests proper in every list of tests.
 */
export interface Problem {
  readonly causes: number;
  readonly tests: number;
  readonly groups: number;
  /** Tests that are remedies, as indices of tests. */
  readonly remedies: Int32Array;
  /** By test: the largest chance that it mends; 0 for what only tells. */
  readonly success: Float64Array;
  /** Paid beside the cost of test `j` under cause `i`: `extra[j * causes + i]`; only remedies have it. */
  readonly extra: Float64Array;
  /** By test: the least of that under a cause that it cannot mend. */
  readonly needless: Float64Array;
  /** By test: causes it may mend. */
  readonly covers: readonly Int32Array[];
  /** By cause: remedies that may mend it, the least cost for its chance first. */
  readonly remediesOf: readonly Int32Array[];
  /** 1 where a cause is mended by something of the group: `uses[cause * groups + group]`. */
  readonly uses: Uint8Array;
  /** By outcome (in the list of all): 1 where the work ends with it. */
  readonly ends: Uint8Array;
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
  const groups = table.groups.length;
  const all = [...table.tests, ...table.remedies.map(asTest)];
  const tests = all.length;
  const paying = (group: number): number => (group >= 0 && table.groups[group].cost > 0 ? group : -1);
  const outcomeStart = new Int32Array(tests + 1);
  all.forEach((test, j) => {
    outcomeStart[j + 1] = outcomeStart[j] + (test.chance[0]?.length ?? 0);
  });
  const chance = new Float64Array(outcomeStart[tests] * causes);
  const negEntropy = new Float64Array(tests * causes);
  all.forEach((test, j) => {
    present.forEach((c, i) => {
      test.chance[c].forEach((p, o) => {
        chance[(outcomeStart[j] + o) * causes + i] = p;
        if (p > 0) negEntropy[j * causes + i] += p * Math.log(p);
      });
    });
  });
  const first = table.tests.length;
  const extra = new Float64Array(tests * causes);
  table.remedies.forEach((remedy, r) => {
    present.forEach((c, i) => {
      extra[(first + r) * causes + i] = remedy.extra[c];
    });
  });
  const covers = all.map((_, j) => Int32Array.from(present.flatMap((c, i) => (curesBy(table, j, c) > 0 ? [i] : []))));
  const remedies = Int32Array.from(table.remedies, (_, r) => first + r);
  const ends = new Uint8Array(outcomeStart[tests]);
  for (const j of remedies) ends[outcomeStart[j]] = 1;
  const uses = new Uint8Array(causes * groups);
  present.forEach((c, i) => {
    const own = paying(table.causes[c].repairGroup);
    if (own >= 0) uses[i * groups + own] = 1;
  });
  for (const j of remedies) {
    const group = paying(all[j].group);
    if (group >= 0) for (const i of covers[j]) uses[i * groups + group] = 1;
  }
  const remediesOf = present.map((c, i) => {
    const ratio = (j: number): number => all[j].cost / curesBy(table, j, c);
    return remedies.filter((j) => covers[j].includes(i)).sort((a, b) => ratio(a) - ratio(b) || a - b);
  });
  return {
    causes,
    tests,
    groups,
    remedies,
    success: Float64Array.from(all, (_, j) => present.reduce((most, c) => Math.max(most, curesBy(table, j, c)), 0)),
    extra,
    needless: Float64Array.from(all, (_, j) => {
      const wrong = present.flatMap((c, i) => (curesBy(table, j, c) > 0 ? [] : [extra[j * causes + i]]));
      return wrong.length === 0 ? 0 : Math.min(...wrong);
    }),
    covers,
    remediesOf,
    uses,
    ends,
    tableCause: Int32Array.from(present),
    prior: Float64Array.from(present, (c) => table.causes[c].prior),
    repairCost: Float64Array.from(present, (c) => table.causes[c].repairCost),
    repairGroup: Int32Array.from(present, (c) => paying(table.causes[c].repairGroup)),
    testCost: Float64Array.from(all, (test) => test.cost),
    testGroup: Int32Array.from(all, (test) => paying(test.group)),
    groupCost: Float64Array.from(table.groups, (group) => group.cost),
    stop: table.stop ?? Number.POSITIVE_INFINITY,
    outcomeStart,
    chance,
    negEntropy,
  };
}

/** Mended, or not. */
function asTest({ id, cost, group, cures }: TableRemedy): TableTest {
  return { id, cost, group, chance: cures.map((mends) => [mends, 1 - mends]) };
}

/** Chance that test `j` of the whole list mends a cause: 0 for what only tells. */
function curesBy(table: PlanTable, j: number, cause: number): number {
  return table.remedies[j - table.tests.length]?.cures[cause] ?? 0;
}
