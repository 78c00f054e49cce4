import { GraphSearch, PROVED } from "./graph-search.ts";
import { type Problem, problemOf } from "./problem.ts";
import type { Action } from "./situation.ts";
import { BY_SEQUENCE } from "./states.ts";
import type { PlanTable } from "./table.ts";

/** States held at most: some 150 MB at twenty causes and as many tests. */
const MOST_STATES = 60_000;

/** What to do first, by the id of a test or a remedy. */
export type First = { readonly do: "test" | "remedy"; readonly id: string } | { readonly do: "stop" };

/** Expected cost when a first action is followed by the best that was found, and what no policy that begins so can beat. */
export interface Worth {
  readonly expectedCost: number;
  readonly lowerBound: number;
}

/** The best first action of a table found with some work, beside another that somebody had in mind. */
export interface Weighed extends Worth {
  readonly first: First;
  /** Proved: no policy is cheaper. */
  readonly exact: boolean;
  /** The other action; it is never dearer than the best by more than the gap that is told here. */
  readonly other?: Worth;
  /** Work done: expansions of states. */
  readonly work: number;
}

/**
 * The cheapest first action of a table with remedies that may fail, by bounded search; deterministic, budgeted in work.
 *
 * @param table causes without a repair of their own, and a cost of stopping
 * @param work  expansions for the search, and as many again to do justice to the other action
 * @param other a first action to be held against the best
 * @throws RangeError where the table has repairs of a cause's own or no stop, or does not know the other action
 */
export function weighFirst(table: PlanTable, work: number, other?: First): Weighed {
  if (table.stop === undefined || table.causes.some(({ repairCost }) => repairCost !== Number.POSITIVE_INFINITY))
    throw new RangeError("weighFirst: a table of remedies, with a stop, was expected");
  const problem = problemOf(table);
  const search = new GraphSearch(problem);
  search.run(work, MOST_STATES);
  const first = firstOf(search, table);
  const { lo, hi } = search.states;
  // The other is worked on second, and what is learned of it may even make it the best.
  const against = other === undefined ? undefined : worthOf(search, actionOf(table, other), work);
  const isOther = against !== undefined && against.expectedCost <= hi[search.root] * (1 + PROVED);
  const lowest = lo[search.root] * (1 - PROVED);
  const expectedCost = Math.min(hi[search.root], against?.expectedCost ?? Number.POSITIVE_INFINITY);
  return {
    first: isOther && other !== undefined ? other : first,
    expectedCost,
    lowerBound: Math.max(0, Math.min(lowest, expectedCost)),
    exact: expectedCost - lo[search.root] <= PROVED * expectedCost,
    ...(against === undefined ? {} : { other: against }),
    work: search.work,
  };
}

/** The first action behind the root's upper bound. */
function firstOf({ states, root, moves, sequence, problem }: GraphSearch, table: PlanTable): First {
  if (states.policy[root] !== BY_SEQUENCE) return named(problem, table, states.action[states.policy[root]]);
  const { live, key, weights } = states.recall(root, moves.blank());
  const open = moves.openGroups(key, new Uint8Array(problem.groups));
  const { order, repairs } = sequence.plan(live.causes, live.causes.length, weights, open, key);
  return repairs === 0 ? { do: "stop" } : named(problem, table, order[0]);
}

function named(problem: Problem, table: PlanTable, action: Action): First {
  return problem.success[action] > 0
    ? { do: "remedy", id: table.remedies[action - table.tests.length].id }
    : { do: "test", id: table.tests[action].id };
}

/** Index of an action in the search's list; -1 for stop. */
function actionOf(table: PlanTable, first: First): Action {
  if (first.do === "stop") return -1;
  const list: readonly { readonly id: string }[] = first.do === "test" ? table.tests : table.remedies;
  const at = list.findIndex(({ id }) => id === first.id);
  if (at < 0) throw new RangeError(`weighFirst: the table has no ${first.do} ${first.id}`);
  return first.do === "test" ? at : table.tests.length + at;
}

/** Bounds of a first action, its outcomes worked on by their chance. */
function worthOf(search: GraphSearch, action: Action, work: number): Worth {
  const { states, root, problem } = search;
  if (action < 0) return { expectedCost: problem.stop, lowerBound: problem.stop };
  let expectedCost = search.costOf(root, action);
  let lowerBound = expectedCost;
  const children = search.childrenOf(root, action);
  for (let k = 0; k < children.length; k += 2) {
    const [child, chance] = [children[k], children[k + 1]];
    search.run(search.work + work * chance, 2 * MOST_STATES, child);
    expectedCost += chance * states.hi[child];
    lowerBound += chance * states.lo[child];
  }
  return { expectedCost, lowerBound: lowerBound * (1 - PROVED) };
}
