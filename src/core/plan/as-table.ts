import type { First, PlanTable, TableRemedy, TableTest } from "../search/index.ts";
import type { Cell } from "./cells.ts";
import { placeOfOffer } from "./checks.ts";
import type { Board } from "./ground.ts";

import type { PlanStep } from "./plan.ts";
import type { Repairable } from "./repairs.ts";
import type { Valued } from "./valued.ts";

/** Causes and tests of a table at most: beyond that a search of seconds proves little. */
const MOST_CAUSES = 24;
const MOST_PLACES = 32;
const MOST_TESTS = 24;
/** A cause lighter than this is taken together with others at the same place; a place lighter than this is left out. */
const FLOOR = 0.004;
/** Outcomes of a step that are kept apart, the likeliest; the rest are one. */
const MOST_OUTCOMES = 6;

/** The choice before a technician as a plain table, and the way back from its tests and remedies to steps. */
export interface AsTable {
  readonly table: PlanTable;
  /** Share of the belief that no cause of the table stands for. */
  readonly leftOut: number;
  /** First action of the table that a step is; undefined where the table has none for it. */
  readonly firstOf: (step: PlanStep) => First | undefined;
  /** Step that a first action is: its id, and for what only tells the step as it was valued. */
  readonly stepOf: (first: First) => { readonly id: string; readonly valued?: Valued } | undefined;
}

/** What a table is made from. */
export interface Choice {
  readonly board: Board;
  /** Steps that only tell, each with the batch to be taken; money of each is its `cost`. */
  readonly valued: readonly Valued[];
  readonly repairs: readonly Repairable[];
  /** Id of a step that must have its place in the table. */
  readonly first: string | undefined;
  /** Money of plug out and proof of being dead, where a step pays for it. */
  readonly readyOf: (valued: Valued) => number;
  /** Extra money that a step is charged with: patience for a question. */
  readonly demandOf: (valued: Valued) => number;
}

/**
 * Writes the work before a technician as a table: causes are the live hypotheses, those together that are mended alike and
 * show the same; tests are the steps that could be taken, each a batch with its likeliest outcomes; remedies are those that
 * the plan would name, and for each place what it takes to be rid of a known fault there. What is opened, and plug out and
 * proof, are paid once by all that need just the same opened.
 */
export function asTable(choice: Choice): AsTable {
  const { board, repairs } = choice;
  const tests = chosen(choice);
  const { causes, leftOut } = gathered(board, tests);
  const groups = new GroupList(board);
  const told = tests.map((valued): TableTest => {
    const ready = choice.readyOf(valued);
    const { group, cost } = groups.paid(valued.open, ready);
    const own = Math.max(0, valued.cost + choice.demandOf(valued) - cost);
    return { id: valued.offer.id, cost: own, group, chance: chancesOf(board, valued, causes) };
  });
  const ready = Math.max(0, ...repairs.map(({ act }) => act.ready));
  const named = repairs.map((repair): TableRemedy => {
    const { act } = repair;
    const { group, cost } = groups.paid(groups.opened(act.groups), act.ready);
    // Of two faults it takes one away: then it mends only with what the other still costs.
    const isHalf = (i: number): boolean => act.needed[i] === 1 && act.taken[i] > 0;
    const cures = causes.map((cause) => averaged(board, cause, (i) => (isHalf(i) ? 1 : 1 - act.stays[i])));
    const beside = (i: number): number => (isHalf(i) ? Math.max(0, board.ground.cure[i] - act.taken[i]) : 0);
    const extra = causes.map((cause) =>
      averaged(board, cause, (i) => (act.needed[i] === 1 ? beside(i) : act.forNothing)),
    );
    return { id: `do:${repair.course.id}`, cost: Math.max(0, act.cost - cost), extra, group, cures };
  });
  const table: PlanTable = {
    causes: causes.map(({ weight }, c) => ({
      id: `${c}`,
      prior: weight / (1 - leftOut),
      repairCost: Number.POSITIVE_INFINITY,
      repairGroup: -1,
    })),
    tests: told,
    remedies: [...named, ...knownCures(board, causes, groups, ready)].filter(({ cures }) => cures.some((p) => p > 0)),
    groups: groups.list,
    stop: board.ground.stop,
  };
  return {
    table,
    leftOut,
    firstOf: (step) => {
      if (step.do === "stop") return { do: "stop" };
      if (table.tests.some(({ id }) => id === step.id)) return { do: "test", id: step.id };
      return table.remedies.some(({ id }) => id === step.id) ? { do: "remedy", id: step.id } : undefined;
    },
    stepOf: (first) => {
      if (first.do === "stop") return { id: "stop" };
      const valued = first.do === "test" ? tests.find(({ offer }) => offer.id === first.id) : undefined;
      if (valued !== undefined) return { id: first.id, valued };
      return repairs.some(({ course }) => `do:${course.id}` === first.id) ? { id: first.id } : undefined;
    },
  };
}

/** One step a place, the best of it, and of those the best few: a place that was gone to has told what it tells. */
function chosen({ valued, first }: Choice): Valued[] {
  const places = new Set<string>();
  const isFirst = ({ offer }: Valued): number => Number(offer.id === first);
  return [...valued]
    .sort((a, b) => isFirst(b) - isFirst(a) || a.expectedCost - b.expectedCost || (a.offer.id < b.offer.id ? -1 : 1))
    .filter(({ offer }) => {
      const place = placeOfOffer(offer.id);
      const isNew = !places.has(place);
      places.add(place);
      return isNew;
    })
    .slice(0, MOST_TESTS);
}

/** Live hypotheses taken together. */
interface Cause {
  readonly members: readonly number[];
  readonly target: number;
  readonly weight: number;
}

/** Hypotheses mended at the same place that most likely show the same at every step; the light ones with a heavier one. */
function gathered(board: Board, tests: readonly Valued[]): { readonly causes: Cause[]; readonly leftOut: number } {
  const { weights } = board.live;
  const bySign = new Map<string, { members: number[]; target: number; weight: number }>();
  weights.forEach((weight, i) => {
    const target = board.ground.targetOf[i];
    const sign = `${target}: ${tests.map(({ cells }) => likeliest(cells, i)).join()}`;
    const cause = bySign.get(sign) ?? { members: [], target, weight: 0 };
    cause.members.push(i);
    cause.weight += weight;
    bySign.set(sign, cause);
  });
  const sorted = [...bySign.values()].sort((a, b) => b.weight - a.weight || a.members[0] - b.members[0]);
  const kept = sorted.filter(({ weight }, n) => n < MOST_CAUSES && weight >= FLOOR);
  const rest: typeof sorted = [];
  for (const cause of sorted) {
    if (kept.includes(cause)) continue;
    const like = [...kept, ...rest].find(({ target }) => target === cause.target);
    if (like === undefined) rest.push(cause);
    else {
      like.members.push(...cause.members);
      like.weight += cause.weight;
    }
  }
  rest.sort((a, b) => b.weight - a.weight || a.members[0] - b.members[0]);
  const places = rest.filter(({ weight }, n) => weight >= FLOOR && kept.length + n < MOST_PLACES);
  const causes = [...kept, ...places];
  return { causes, leftOut: Math.max(0, 1 - causes.reduce((sum, { weight }) => sum + weight, 0)) };
}

function likeliest(cells: readonly Cell[], i: number): number {
  let best = 0;
  for (let k = 1; k < cells.length; k++) if (cells[k].weights[i] > cells[best].weights[i]) best = k;
  return best;
}

/** Mean over the hypotheses of a cause. */
function averaged(board: Board, { members, weight }: Cause, of: (i: number) => number): number {
  return members.reduce((sum, i) => sum + board.live.weights[i] * of(i), 0) / weight;
}

/** Chances of a step's outcomes, the likeliest apart and the rest as one, under each cause. */
function chancesOf(board: Board, { cells }: Valued, causes: readonly Cause[]): readonly (readonly number[])[] {
  const sorted = [...cells].sort((a, b) => b.chance - a.chance);
  const apart = sorted.length <= MOST_OUTCOMES ? sorted : sorted.slice(0, MOST_OUTCOMES - 1);
  return causes.map((cause) => {
    const row = apart.map(({ weights }) => averaged(board, cause, (i) => weights[i] / board.live.weights[i]));
    const shown = row.reduce((sum, p) => sum + p, 0);
    // What is foreseen sums to 1 but for what was too rare to be kept; that goes with the rest.
    const all = apart.length === sorted.length ? row : [...row, Math.max(0, 1 - shown)];
    const sum = all.reduce((total, p) => total + p, 0);
    return all.map((p) => p / sum);
  });
}

/** For each place what it takes to be rid of a fault there that is known: its remedies in turn, money as the plan counts it. */
function knownCures(board: Board, causes: readonly Cause[], groups: GroupList, ready: number): TableRemedy[] {
  const { targets, cure } = board.ground;
  return [...new Set(causes.map(({ target }) => target))].flatMap((t) => {
    const target = targets[t];
    if (target.endless) return [];
    const here = causes.filter((cause) => cause.target === t);
    const weight = here.reduce((sum, cause) => sum + cause.weight, 0);
    const cost = here.reduce((sum, cause) => sum + cause.weight * averaged(board, cause, (i) => cure[i]), 0) / weight;
    const { group } = groups.paid(groups.opened(target.mendGroups), target.mendGroups.length > 0 ? ready : 0);
    const cures = causes.map((cause) => (cause.target === t ? 1 : 0));
    const extra = cures.map((mends) => (mends === 1 ? 0 : target.forNothing));
    return [{ id: `cure:${target.id} ${t}`, cost, extra, group, cures }];
  });
}

/** What must be opened, and plug out and proof, as groups of a table: one for each set that some action needs. */
class GroupList {
  readonly list: { readonly id: string; readonly cost: number }[] = [];
  readonly #board: Board;
  readonly #index = new Map<string, number>();

  constructor(board: Board) {
    this.#board = board;
  }

  /** Flags of what is open once these are. */
  opened(groups: readonly number[]): Uint8Array {
    const open = Uint8Array.from(this.#board.open);
    for (const g of groups) open[g] = 1;
    return open;
  }

  /** The group of all that is opened on the way to `open`, and its money; -1 where nothing is. */
  paid(open: Uint8Array, ready: number): { readonly group: number; readonly cost: number } {
    const { ground, open: now } = this.#board;
    const opens = ground.groups.flatMap((_, g) => (open[g] === 1 && now[g] === 0 ? [g] : []));
    const cost = ready + opens.reduce((sum, g) => sum + ground.groups[g].cost, 0);
    if (cost === 0) return { group: -1, cost };
    const id = [...(ready > 0 ? ["dead"] : []), ...opens.map((g) => ground.groups[g].id)].join("+");
    const known = this.#index.get(id) ?? this.list.push({ id, cost }) - 1;
    this.#index.set(id, known);
    return { group: known, cost: this.list[known].cost };
  }
}
