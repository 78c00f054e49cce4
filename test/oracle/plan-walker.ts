// The judge of plans: walks a printed policy, and solves small tables by plain recursion. It knows the form of the table
// from its description alone and shares no code with the planner.

export interface Table {
  readonly format: string;
  readonly causes: readonly {
    readonly id: string;
    readonly prior: number;
    readonly repair: { readonly cost: number; readonly group?: string | null };
  }[];
  readonly groups?: readonly { readonly id: string; readonly cost: number }[];
  readonly tests: readonly {
    readonly id: string;
    readonly cost: number;
    readonly group?: string | null;
    readonly outcomes: number;
    readonly chance: { readonly [cause: string]: readonly number[] };
  }[];
  readonly stop?: { readonly cost: number };
}

type Node = {
  readonly do: string;
  readonly id?: string;
  readonly then?: { readonly [outcome: string]: number };
  readonly else?: number | null;
};

function access(table: Table, group: string | null | undefined, open: readonly string[]): number {
  if (group === null || group === undefined || open.includes(group)) return 0;
  return (table.groups ?? []).find(({ id }) => id === group)?.cost ?? Number.NaN;
}

function opened(group: string | null | undefined, open: readonly string[]): readonly string[] {
  return group === null || group === undefined || open.includes(group) ? open : [...open, group].sort();
}

/** What a policy costs while one cause is present: each node once for the groups open on the way to it. */
export function costUnder(
  table: Table,
  policy: { readonly root: number; readonly nodes: readonly Node[] },
  cause: string,
): number {
  const known = new Map<string, number>();
  const walk = (at: number, open: readonly string[], done: readonly string[]): number => {
    const name = `${at} ${open.join()}`;
    const before = known.get(name);
    if (before !== undefined) return before;
    const node = policy.nodes[at];
    let cost = Number.NaN;
    if (node.do === "stop") cost = table.stop?.cost ?? Number.NaN;
    else if (node.do === "repair") {
      const { repair } = table.causes.find(({ id }) => id === node.id) as Table["causes"][number];
      cost = repair.cost + access(table, repair.group, open);
      if (node.id !== cause) cost += walk(node.else as number, opened(repair.group, open), done);
    } else {
      if (done.includes(node.id as string)) throw new Error(`test ${node.id} done twice`);
      const test = table.tests.find(({ id }) => id === node.id) as Table["tests"][number];
      cost = test.cost + access(table, test.group, open);
      test.chance[cause].forEach((p, o) => {
        const next = node.then?.[o];
        if (p > 0 && next === undefined) throw new Error(`no answer to outcome ${o} of ${node.id} under ${cause}`);
        if (p > 0) cost += p * walk(next as number, opened(test.group, open), [...done, test.id]);
      });
    }
    known.set(name, cost);
    return cost;
  };
  return walk(policy.root, [], []);
}

/** Expected cost of a printed policy. */
export function walkPolicy(table: Table, policy: { readonly root: number; readonly nodes: readonly Node[] }): number {
  return table.causes.reduce((sum, { id, prior }) => (prior > 0 ? sum + prior * costUnder(table, policy, id) : sum), 0);
}

/** The least expected cost, by trying everything: the definition, without memory, bounds or thrift. */
export function leastCost(table: Table, first?: { readonly do: string; readonly id?: string }): number {
  const { causes, tests, stop } = table;
  const best = (
    weights: readonly number[],
    tried: readonly boolean[],
    done: readonly boolean[],
    open: readonly string[],
    only?: { readonly do: string; readonly id?: string },
  ): number => {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    if (total === 0) return 0;
    let least = stop === undefined || (only !== undefined && only.do !== "stop") ? Infinity : total * stop.cost;
    causes.forEach(({ id, repair }, c) => {
      if (tried[c] || weights[c] === 0 || (only !== undefined && (only.do !== "repair" || only.id !== id))) return;
      const paid = total * (repair.cost + access(table, repair.group, open));
      if (paid >= least) return;
      const left = weights.map((weight, k) => (k === c ? 0 : weight));
      const nowTried = tried.map((was, k) => was || k === c);
      least = Math.min(least, paid + best(left, nowTried, done, opened(repair.group, open)));
    });
    tests.forEach((test, j) => {
      if (done[j] || (only !== undefined && (only.do !== "test" || only.id !== test.id))) return;
      let cost = total * (test.cost + access(table, test.group, open));
      const nowDone = done.map((was, k) => was || k === j);
      for (let o = 0; o < test.outcomes && cost < least; o++) {
        const left = weights.map((weight, c) => weight * test.chance[causes[c].id][o]);
        cost += best(left, tried, nowDone, opened(test.group, open));
      }
      least = Math.min(least, cost);
    });
    return least;
  };
  return best(
    causes.map(({ prior }) => prior),
    causes.map(() => false),
    tests.map(() => false),
    [],
    first,
  );
}
