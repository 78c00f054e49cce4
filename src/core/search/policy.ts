import type { GraphSearch } from "./graph-search.ts";
import { Rollout } from "./rollout.ts";
import type { Situation } from "./situation.ts";
import { BY_ROLLOUT, BY_SEQUENCE } from "./states.ts";
import type { PlanNode, PlanPolicy, PlanTable } from "./table.ts";

/** The policy behind the root's upper bound, as a graph in which equal continuations are one node; the root is node 0. */
export function policyOf(search: GraphSearch, table: PlanTable): PlanPolicy {
  return new PolicyWriter(search, table).write();
}

class PolicyWriter {
  readonly #search: GraphSearch;
  readonly #table: PlanTable;
  readonly #rollout: Rollout;
  readonly #nodes: PlanNode[] = [];
  readonly #known = new Map<string, number>();
  readonly #byState = new Map<number, number>();

  constructor(search: GraphSearch, table: PlanTable) {
    this.#search = search;
    this.#table = table;
    this.#rollout = new Rollout(search.problem, search.moves, search.layout);
  }

  write(): PlanPolicy {
    return fromRoot(this.#nodes, this.#ofState(this.#search.root));
  }

  #ofState(state: number): number {
    const known = this.#byState.get(state);
    if (known !== undefined) return known;
    const { states, moves } = this.#search;
    const policy = states.policy[state];
    let node: number;
    if (policy === BY_SEQUENCE) node = this.#ofSequence(states.recall(state, moves.blank()));
    else if (policy === BY_ROLLOUT) node = this.#ofRollout(states.recall(state, moves.blank()), 1, states.cut[state]);
    else node = this.#ofAction(state, policy);
    this.#byState.set(state, node);
    return node;
  }

  #ofAction(state: number, at: number): number {
    const { states, problem } = this.#search;
    const action = states.action[at];
    let child = states.firstChild[at];
    if (action >= problem.tests)
      return this.#repair(action - problem.tests, states.children[at] > 0 ? this.#ofState(states.child[child]) : null);
    const then: { [outcome: string]: number } = {};
    // Children stand in the order of the outcomes, impossible ones left out.
    for (let o = problem.outcomeStart[action]; o < problem.outcomeStart[action + 1]; o++)
      if (this.#isPossible(states.live(state).causes, o))
        then[o - problem.outcomeStart[action]] = this.#ofState(states.child[child++]);
    return this.#test(action, then);
  }

  #ofSequence({ live, key, weights }: Situation): number {
    const { moves, sequence, problem } = this.#search;
    const open = moves.openGroups(key, new Uint8Array(problem.groups));
    const { order, repairs } = sequence.plan(live.causes, live.causes.length, weights, open, key);
    let node = repairs < live.causes.length ? this.#node({ do: "stop" }) : null;
    for (let at = repairs - 1; at >= 0; at--) node = this.#repair(order[at], node);
    if (node === null) throw new RangeError("a repair sequence of a situation without causes");
    return node;
  }

  #ofRollout(situation: Situation, reach: number, cut: number): number {
    const { moves, problem } = this.#search;
    const action = this.#rollout.choose(situation, reach, cut);
    if (action < 0) return this.#ofSequence(situation);
    const next = moves.blank();
    if (action >= problem.tests) {
      const chance = moves.afterFailure(situation, action - problem.tests, next);
      return this.#repair(action - problem.tests, chance > 0 ? this.#ofRollout(next, reach * chance, cut) : null);
    }
    const then: { [outcome: string]: number } = {};
    for (let o = problem.outcomeStart[action]; o < problem.outcomeStart[action + 1]; o++) {
      const chance = moves.afterOutcome(situation, action, o, next);
      if (chance > 0) then[o - problem.outcomeStart[action]] = this.#ofRollout(next, reach * chance, cut);
    }
    return this.#test(action, then);
  }

  #isPossible(causes: Int32Array, o: number): boolean {
    const { chance, causes: n } = this.#search.problem;
    return causes.some((i) => chance[o * n + i] > 0);
  }

  #test(test: number, then: { [outcome: string]: number }): number {
    return this.#node({ do: "test", id: this.#table.tests[test].id, then });
  }

  #repair(cause: number, otherwise: number | null): number {
    return this.#node({
      do: "repair",
      id: this.#table.causes[this.#search.problem.tableCause[cause]].id,
      else: otherwise,
    });
  }

  /** The node, or an equal one written before. */
  #node(node: PlanNode): number {
    const text = JSON.stringify(node);
    const known = this.#known.get(text);
    if (known !== undefined) return known;
    this.#known.set(text, this.#nodes.length);
    return this.#nodes.push(node) - 1;
  }
}

/** The nodes reached from `root`, numbered from 0 as they are met. */
function fromRoot(nodes: readonly PlanNode[], root: number): PlanPolicy {
  const number = new Map<number, number>([[root, 0]]);
  const met = [root];
  const numberOf = (node: number): number => {
    const known = number.get(node);
    if (known !== undefined) return known;
    number.set(node, met.length);
    return met.push(node) - 1;
  };
  const renumbered: PlanNode[] = [];
  for (let at = 0; at < met.length; at++) {
    const node = nodes[met[at]];
    if (node.do === "stop") renumbered.push(node);
    else if (node.do === "repair") renumbered.push({ ...node, else: node.else === null ? null : numberOf(node.else) });
    else
      renumbered.push({
        ...node,
        // biome-ignore lint/suspicious/noThenProperty: the printed form names it so; its value is no function
        then: Object.fromEntries(Object.entries(node.then).map(([outcome, to]) => [outcome, numberOf(to)])),
      });
  }
  return { root: 0, nodes: renumbered };
}
