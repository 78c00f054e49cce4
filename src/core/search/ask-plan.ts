import { type Checked, type Issue, refuse } from "../issue/index.ts";
import { GraphSearch, PROVED } from "./graph-search.ts";
import { policyOf } from "./policy.ts";
import { policyCost } from "./policy-cost.ts";
import { type Problem, problemOf } from "./problem.ts";
import { readTable } from "./read-table.ts";
import type { PlanAnswer, PlanTable } from "./table.ts";

/** Memory that the states of a search may take, about. */
const MOST_BYTES = 1e9;
/** Work when none is asked: less where an expansion takes longer, so that both small and large tables end in some twenty seconds. */
const USUAL_WORK = 6.6e8;
const MOST_USUAL_WORK = 800_000;

export interface PlanOptions {
  /** Give the whole policy too. */
  readonly policy?: boolean;
  /** Most states to expand; less than enough comes with an honest lower bound. */
  readonly work?: number;
}

/**
 * The cheapest sequence of tests and repairs of a plain table (the form `faultwright-table/1`), with a proven lower bound.
 *
 * `expectedCost` is what the policy truly costs, worked out from the finished policy; no policy costs less than
 * `lowerBound`. Deterministic: the same table and work give the same answer on every machine.
 *
 * @param table parsed JSON of that form
 * @returns costs in the unit of the table
 */
export function askPlan(table: unknown, options: PlanOptions = {}): Checked<PlanAnswer> {
  const { work } = options;
  if (work !== undefined && !(Number.isInteger(work) && work >= 1)) return refuse(badWork(work));
  const read = readTable(table);
  if (!read.ok) return read;
  return { ok: true, value: plan(read.value, options), warnings: read.warnings };
}

function plan(table: PlanTable, { policy, work }: PlanOptions): PlanAnswer {
  const problem = problemOf(table);
  const size = problem.causes * Math.max(1, problem.tests);
  const search = new GraphSearch(problem);
  search.run(work ?? Math.min(MOST_USUAL_WORK, Math.ceil(USUAL_WORK / size ** 1.5)), mostStates(problem));

  const found = policyOf(search, table);
  const expectedCost = policyCost(table, found);
  const total = problem.prior.reduce((sum, prior) => sum + prior, 0);
  const lowest = total * search.states.lo[search.root] * (1 - PROVED);
  const first = found.nodes[found.root];
  return {
    expectedCost,
    lowerBound: Math.max(0, Math.min(lowest, expectedCost)),
    exact: search.isProved,
    first: first.do === "stop" ? { do: "stop" } : { do: first.do, id: first.id },
    ...(policy === true ? { policy: found } : {}),
  };
}

/** As many states as fit: each with its belief, some with their actions and what those lead to. */
function mostStates({ causes, tests, outcomeStart }: Problem): number {
  const belief = 100 + 8 * causes + tests;
  const action = 28 * (causes + tests) + 12 * (causes + outcomeStart[tests]);
  return Math.floor(MOST_BYTES / (2 * belief + action / 2));
}

function badWork(work: number): Issue {
  return {
    code: "table.work",
    severity: "error",
    at: ["work"],
    found: String(work),
    expected: "a whole number of at least 1",
  };
}
