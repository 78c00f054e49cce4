import { priceOf, type Shop } from "../remedy/index.ts";
import type { OutcomeTable } from "../suspect/index.ts";
import type { BasePolicy } from "./base-policy.ts";
import type { Board } from "./ground.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import { accessChain, type SetUp, setUpFor } from "./set-up.ts";
import type { WorkState } from "./work-state.ts";

/** Most readings worth holding in one's head at one place. */
const MOST_READINGS = 6;
/** Questions of one place that are tried against one another, the best ones by themselves. */
const BREADTH = 7;
/** Joint outcomes kept apart; the lightest are taken together beyond that. */
const MOST_CELLS = 16;
/** A joint outcome rarer than this is taken together with the others. */
const RARE = 2e-3;

/** One joint outcome of some questions: how each came out, and the weights of the hypotheses that remain. */
export interface Cell {
  /** Outcome index by question taken; -1 where rare outcomes were taken together. */
  readonly path: readonly number[];
  readonly weights: Float64Array;
  readonly chance: number;
}

/** An offer with what it is worth. */
export interface Valued {
  readonly offer: Offer;
  readonly setUp: SetUp;
  readonly taken: readonly OfferQuestion[];
  readonly tables: readonly OutcomeTable[];
  readonly cells: readonly Cell[];
  /** Access groups open afterwards. */
  readonly open: Uint8Array;
  readonly minutes: number;
  /** Money of the step itself. */
  readonly cost: number;
  /** Expected money to the end with it. */
  readonly expectedCost: number;
}

/**
 * One step ahead: what each offer costs, and what the base policy would cost after each thing it may show.
 *
 * A place is valued as a batch: its questions are taken one by one, each time the one that leaves the least to pay given
 * the joint outcome of those before it, and as many of them as pay for themselves.
 *
 * @source one-step lookahead over a base policy: Heckerman, Breese & Rommelse 1995 (from memory)
 */
export class Lookahead {
  /** Outcome tables asked for, as the measure of work. */
  tables = 0;
  readonly #board: Board;
  readonly #policy: BasePolicy;
  readonly #state: WorkState;
  readonly #shop: Shop;
  readonly #most: number;
  /** Money of the base policy from here. */
  readonly base: number;
  /** The most that any knowledge could save. */
  readonly waste: number;
  complete = true;

  constructor(board: Board, policy: BasePolicy, state: WorkState, shop: Shop, mostTables: number) {
    this.#board = board;
    this.#policy = policy;
    this.#state = state;
    this.#shop = shop;
    this.#most = mostTables;
    this.base = policy.cost(board.live.weights, board.open);
    this.waste = Math.max(0, this.base - policy.least(board.live.weights));
  }

  /**
   * First look at an offer: set-up, tables, and the single question that pays best.
   *
   * @returns undefined when it cannot be set up, when even full knowledge would not pay for it, or when work has run out
   */
  first(
    offer: Offer,
  ):
    | (Valued & { readonly hope: number; readonly order: readonly number[]; readonly all: readonly OutcomeTable[] })
    | undefined {
    const setUp = setUpFor(offer.needs, this.#state, this.#board.groups, this.#shop);
    if (setUp === undefined || offer.questions.length === 0) return undefined;
    const fixed = priceOf(setUp.minutes + setUp.closeMinutes + offer.minutes, this.#shop);
    const opening = this.#openingSaved(offer);
    const cheapest = Math.min(...offer.questions.map((question) => question.minutes));
    if (fixed - opening + priceOf(cheapest, this.#shop) >= this.waste) return undefined;

    const open = this.#openAfter(offer);
    const whole: Cell = { path: [], weights: this.#board.live.weights, chance: 1 };
    const all: OutcomeTable[] = [];
    const singles: { readonly index: number; readonly left: number; readonly tells: number }[] = [];
    const blank = this.#policy.cost(whole.weights, open);
    for (const [index, question] of offer.questions.entries()) {
      if (this.tables >= this.#most) {
        this.complete = false;
        break;
      }
      this.tables++;
      const table = this.#board.case.outcomes(question.observation, this.#board.live);
      all.push(table);
      const left = this.#left(split([whole], table), open);
      singles.push({ index, left, tells: tells(table, this.#board.live.weights) });
    }
    if (singles.length === 0) return undefined;
    const price = (index: number): number => priceOf(offer.questions[index]?.minutes ?? 0, this.#shop);
    const order = singles
      .filter((single) => single.tells > 1e-9)
      .sort((a, b) => a.left + price(a.index) - b.left - price(b.index) || b.tells - a.tells || a.index - b.index)
      .map((single) => single.index);
    const best = order[0];
    if (best === undefined) return undefined;
    const single = singles.find((one) => one.index === best);
    const gains = singles.reduce((sum, one) => sum + Math.max(0, blank - one.left), 0);
    const valued = this.#valued(
      offer,
      setUp,
      fixed,
      [best],
      all,
      split([whole], all[best] as OutcomeTable),
      open,
      single?.left ?? blank,
    );
    // Questions at one place may tell more together than the sum of each; a little is hoped for beyond it.
    const hope = fixed + price(best) + Math.max(this.#policy.least(whole.weights), blank - 1.5 * gains);
    return { ...valued, hope, order, all };
  }

  /** Second look: the best batch of questions at this place. */
  batch(first: NonNullable<ReturnType<Lookahead["first"]>>): Valued {
    const { offer, setUp, open, all } = first;
    const fixed = priceOf(setUp.minutes + setUp.closeMinutes + offer.minutes, this.#shop);
    const rest = offer.whole === true ? [...first.order] : first.order.slice(0, BREADTH);
    let cells: readonly Cell[] = [{ path: [], weights: this.#board.live.weights, chance: 1 }];
    const taken: number[] = [];
    let minutes = 0;
    let best: Valued | undefined;
    let idle = 0;
    while (rest.length > 0 && taken.length < MOST_READINGS && idle < 2) {
      let pick = -1;
      let pickCells: readonly Cell[] = cells;
      let pickLeft = Number.POSITIVE_INFINITY;
      let pickTotal = Number.POSITIVE_INFINITY;
      for (const [n, index] of rest.entries()) {
        const next = split(cells, all[index] as OutcomeTable);
        const left = this.#left(next, open);
        const total = left + priceOf(offer.questions[index]?.minutes ?? 0, this.#shop);
        if (total < pickTotal - 1e-9) {
          pick = n;
          pickCells = next;
          pickLeft = left;
          pickTotal = total;
        }
      }
      if (pick < 0) break;
      const index = rest.splice(pick, 1)[0] as number;
      taken.push(index);
      minutes += offer.questions[index]?.minutes ?? 0;
      cells = pickCells;
      const total = fixed + priceOf(minutes, this.#shop) + pickLeft;
      if (best === undefined || total < best.expectedCost - 1e-9 || offer.whole === true) {
        best = this.#valued(offer, setUp, fixed, [...taken], all, cells, open, pickLeft);
        idle = 0;
      } else {
        idle++;
      }
    }
    return best ?? first;
  }

  #valued(
    offer: Offer,
    setUp: SetUp,
    fixed: number,
    taken: readonly number[],
    all: readonly OutcomeTable[],
    cells: readonly Cell[],
    open: Uint8Array,
    left: number,
  ): Valued {
    const questions = taken.map((index) => offer.questions[index] as OfferQuestion);
    const minutes = questions.reduce((sum, question) => sum + question.minutes, 0);
    const cost = fixed + priceOf(minutes, this.#shop);
    return {
      offer,
      setUp,
      taken: questions,
      tables: taken.map((index) => all[index] as OutcomeTable),
      cells,
      open,
      minutes: setUp.minutes + offer.minutes + minutes,
      cost,
      expectedCost: cost + left,
    };
  }

  #left(cells: readonly Cell[], open: Uint8Array): number {
    let sum = 0;
    for (const cell of cells) sum += this.#policy.cost(cell.weights, open);
    return sum;
  }

  #openAfter(offer: Offer): Uint8Array {
    const open = Uint8Array.from(this.#board.open);
    for (const id of offer.needs.access) {
      for (const group of accessChain(id, this.#board.groups)) open[this.#board.groupIndex.get(group.id) ?? 0] = 1;
    }
    return open;
  }

  /** Opening now is not lost where something behind the cover would be looked at anyway. */
  #openingSaved(offer: Offer): number {
    let saved = 0;
    for (const id of offer.needs.access) {
      for (const group of accessChain(id, this.#board.groups)) {
        const index = this.#board.groupIndex.get(group.id) ?? 0;
        if (this.#board.open[index] === 0) saved += this.#board.ground.groups[index]?.cost ?? 0;
      }
    }
    return saved;
  }
}

/** Every cell parted by one more question; rare joint outcomes are taken together (which can only lose worth). */
export function split(cells: readonly Cell[], table: OutcomeTable): Cell[] {
  const next: Cell[] = [];
  for (const cell of cells) {
    for (const [o, chance] of table.chance.entries()) {
      const weights = new Float64Array(cell.weights.length);
      let sum = 0;
      for (let i = 0; i < weights.length; i++) {
        const w = (cell.weights[i] as number) * (chance[i] as number);
        weights[i] = w;
        sum += w;
      }
      if (sum > 1e-12) next.push({ path: [...cell.path, o], weights, chance: sum });
    }
  }
  next.sort((a, b) => b.chance - a.chance);
  const kept = next.filter((cell, n) => n < MOST_CELLS - 1 && cell.chance >= RARE);
  const rare = next.filter((cell, n) => !(n < MOST_CELLS - 1 && cell.chance >= RARE));
  const [only] = rare;
  if (only === undefined) return kept;
  if (rare.length === 1) return [...kept, only];
  const weights = new Float64Array(only.weights.length);
  for (const cell of rare) {
    for (let i = 0; i < weights.length; i++) weights[i] = (weights[i] as number) + (cell.weights[i] as number);
  }
  const path = only.path.map(() => -1);
  return [...kept, { path, weights, chance: rare.reduce((sum, cell) => sum + cell.chance, 0) }];
}

/** How much a question says of the hypotheses at all: mutual information, nats. */
function tells(table: OutcomeTable, weights: Float64Array): number {
  let sum = 0;
  for (const chance of table.chance) {
    let outcome = 0;
    for (let i = 0; i < weights.length; i++) outcome += (weights[i] as number) * (chance[i] as number);
    if (outcome <= 0) continue;
    for (let i = 0; i < weights.length; i++) {
      const p = chance[i] as number;
      if (p > 0) sum += (weights[i] as number) * p * Math.log(p / outcome);
    }
  }
  return sum;
}
