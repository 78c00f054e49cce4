import type { PlanPolicy, PlanTable } from "./table.ts";

/**
 * The true expected cost of a policy graph, from the table alone: for each cause what each node costs with the groups
 * open on the way to it, weighed by the priors.
 *
 * @throws RangeError where the policy has no answer to something that can happen
 */
export function policyCost(table: PlanTable, policy: PlanPolicy): number {
  const costs = new PolicyCosts(table, policy).of(policy.root, new Set());
  return table.causes.reduce((sum, { prior }, c) => {
    if (prior === 0) return sum;
    if (Number.isNaN(costs[c])) throw new RangeError("the policy has no answer to something that can happen");
    return sum + prior * costs[c];
  }, 0);
}

class PolicyCosts {
  readonly #table: PlanTable;
  readonly #policy: PlanPolicy;
  readonly #tests: ReadonlyMap<string, number>;
  readonly #causes: ReadonlyMap<string, number>;
  readonly #known = new Map<string, Float64Array>();

  constructor(table: PlanTable, policy: PlanPolicy) {
    this.#table = table;
    this.#policy = policy;
    this.#tests = new Map(table.tests.map((test, j) => [test.id, j]));
    this.#causes = new Map(table.causes.map((cause, c) => [cause.id, c]));
  }

  /** Cost under each cause; not a number where the node cannot be reached under it. */
  of(at: number, open: ReadonlySet<number>): Float64Array {
    const name = `${at}/${[...open].sort((a, b) => a - b).join()}`;
    const known = this.#known.get(name);
    if (known !== undefined) return known;
    const costs = this.#work(at, open);
    this.#known.set(name, costs);
    return costs;
  }

  #work(at: number, open: ReadonlySet<number>): Float64Array {
    const { causes, tests, stop } = this.#table;
    const node = this.#policy.nodes[at];
    const costs = new Float64Array(causes.length);
    if (node.do === "stop") return costs.fill(stop ?? Number.NaN);
    if (node.do === "repair") {
      const cause = this.#causes.get(node.id) ?? -1;
      const { repairCost, repairGroup } = causes[cause];
      const paid = repairCost + this.#access(repairGroup, open);
      const after = node.else === null ? costs.fill(Number.NaN) : this.of(node.else, opened(open, repairGroup));
      return after.map((cost, c) => (c === cause ? paid : paid + cost));
    }
    const test = tests[this.#tests.get(node.id) ?? -1];
    costs.fill(test.cost + this.#access(test.group, open));
    test.chance[0].forEach((_, o) => {
      const to = node.then[o];
      const after = to === undefined ? undefined : this.of(to, opened(open, test.group));
      for (let c = 0; c < costs.length; c++)
        if (test.chance[c][o] > 0) costs[c] += test.chance[c][o] * (after?.[c] ?? Number.NaN);
    });
    return costs;
  }

  #access(group: number, open: ReadonlySet<number>): number {
    return group >= 0 && !open.has(group) ? this.#table.groups[group].cost : 0;
  }
}

function opened(open: ReadonlySet<number>, group: number): ReadonlySet<number> {
  return group < 0 || open.has(group) ? open : new Set([...open, group]);
}
