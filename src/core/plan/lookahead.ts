import { priceOf, type Shop } from "../remedy/index.ts";
import { natsTold, type OutcomeTable } from "../suspect/index.ts";
import { addsTo, nothingTold, type Told, told } from "./adds-to.ts";
import type { BasePolicy } from "./base-policy.ts";
import { type Cell, coarse, split, wholeOf } from "./cells.ts";
import { type Checks, placeOfOffer } from "./checks.ts";
import type { Board } from "./ground.ts";
import type { Knowing } from "./knowing.ts";
import { type Act, LeafValue } from "./leaf-value.ts";
import { isProvedBy, minutesFor, type Offer, type OfferQuestion } from "./offer.ts";
import { ownReading } from "./own-reading.ts";
import { readyCost } from "./set-up.ts";
import type { Surveyed } from "./survey.ts";
import { bothOpen, type Glance, type Valued } from "./valued.ts";
import { WhatNext } from "./what-next.ts";

/** Most readings worth holding in one's head at one place. */
const MOST_READINGS = 6;
/** Questions of one place that are tried against one another, the best ones by themselves. */
const BREADTH = 6;
/** Questions of a place that are priced by themselves, those that tell most. */
const MOST_SINGLES = 8;
/** Share of its price that every further reading must save beyond its price. */
const CLUTTER = 0.5;
/** Steps that are tried as the second of two, and cells kept apart in doing so. */
const PARTNERS = 3;
const MOST_COARSE = 6;
/** Beside other readings one is not taken for what is less likely than this: the rest would be "almost certainly". */
const UNLIKELY = 0.02;
/** A question that tells less than this (nats) tells nothing. */
const TELLS_NOTHING = 1e-9;

/**
 * One step ahead: what each offer costs, and what the base policy would cost after each thing it may show.
 *
 * A place is valued as a batch: its questions are taken one by one, each time the one that leaves the least to pay given
 * the joint outcome of those before it, and as many of them as pay for themselves.
 *
 * @source one-step lookahead over a base policy: Heckerman, Breese & Rommelse 1995 (from memory)
 */
export class Lookahead {
  readonly #board: Board;
  readonly #policy: BasePolicy;
  readonly #shop: Shop;
  readonly #checks: Checks;
  readonly #knowing: Knowing;
  /** What a step leads to. */
  readonly ahead: WhatNext;
  readonly #leaf: LeafValue;
  /** Money of the base policy from here. */
  readonly base: number;
  /** Money of the best that can be done without any test: a remedy on the chance, or stopping. */
  readonly blind: number;
  /** Money that no test saves: all mended as if it were known. */
  readonly least: number;
  /** Money with each of the acts done first. */
  readonly tried: readonly number[];

  constructor(board: Board, policy: BasePolicy, checks: Checks, knowing: Knowing, shop: Shop, acts: readonly Act[]) {
    this.#board = board;
    this.#policy = policy;
    this.#checks = checks;
    this.#knowing = knowing;
    this.#shop = shop;
    policy.use(checks.without());
    const { weights } = board.live;
    const leaf = new LeafValue(policy, acts, board.open);
    this.#leaf = leaf;
    this.ahead = new WhatNext(board, policy, leaf, acts, (step) => this.policyAfter(step.offer, step.open));
    leaf.curve = knowing.after([], board.open);
    this.base = leaf.testing(weights, board.open);
    this.tried = acts.map((act) => leaf.costOf(act, weights, board.open));
    this.blind = Math.min(board.ground.stop, ...this.tried);
    this.least = policy.least(weights);
  }

  /** The base policy as it is once an offer has been used up. */
  policyAfter(offer: Offer, open: Uint8Array, then?: Offer): BasePolicy {
    const places = [offer, ...(then === undefined ? [] : [then])].map(({ id }) => placeOfOffer(id));
    this.#policy.use(this.#checks.without(...places));
    this.#leaf.curve = this.#knowing.after(places, open);
    this.#leaf.isDead = isProvedBy(then ?? offer);
    return this.#policy;
  }

  /** Money to the end from here, with the tests that the policy now has. */
  before(): number {
    const dead = this.#leaf.isDead;
    this.#leaf.isDead = false;
    const cost = this.#leaf.cost(this.#board.live.weights, this.#board.open);
    this.#leaf.isDead = dead;
    return cost;
  }

  /** First look: the single question that pays best; undefined when none tells anything. */
  glance(surveyed: Surveyed): Glance | undefined {
    const { offer, open, fixed } = surveyed;
    const weights = this.#board.live.weights;
    this.policyAfter(offer, open);
    const without = this.before();
    const blank = Math.min(this.#leaf.cost(weights, open), this.blind);
    const singles = surveyed.tables
      .map((table, index) => ({ table, index, nats: natsTold(table, weights) }))
      .filter(({ nats }) => nats > TELLS_NOTHING)
      .sort((a, b) => b.nats - a.nats || a.index - b.index)
      .slice(0, MOST_SINGLES)
      .map(({ table, index }) => ({
        index,
        left: this.#leftOf(table, open),
        price: this.#priceOf(offer, [index]),
      }))
      .sort((a, b) => a.left + a.price - b.left - b.price || a.index - b.index);
    const [best] = singles;
    if (best === undefined) return undefined;
    const gains = singles.reduce((sum, single) => sum + Math.max(0, blank - single.left), 0);
    const cells = split([wholeOf(this.#board)], surveyed.tables[best.index] as OutcomeTable);
    return {
      ...this.#valued(surveyed, [best.index], cells, best.left, without),
      surveyed,
      // Questions at one place may tell more together than each by itself; a little is hoped for beyond the sum.
      hope: fixed + best.price + Math.max(this.#policy.least(weights), blank - 1.5 * gains),
      order: singles.map((single) => single.index),
    };
  }

  /** Second look: the best batch of questions at this place. */
  batch(glance: Glance): Valued {
    const { surveyed } = glance;
    const { offer, open, fixed } = surveyed;
    this.policyAfter(offer, open);
    const rest = this.#unlike(glance);
    const taken: number[] = [];
    let known = nothingTold(this.#board);
    let cells: readonly Cell[] = [wholeOf(this.#board)];
    let best: Valued = glance;
    let bestTaken: { readonly taken: readonly number[]; readonly known: Told } = { taken, known };
    let idle = 0;
    while (taken.length < MOST_READINGS && idle < 2) {
      const news = rest.filter((index) => {
        const table = surveyed.tables[index] as OutcomeTable;
        return addsTo(this.#board, known, table) && (taken.length === 0 || isInDoubt(table, this.#board.live.weights));
      });
      if (news.length === 0) break;
      const pick = this.#pick(news, taken, cells, surveyed);
      const before = this.#priceOf(offer, taken);
      rest.splice(rest.indexOf(pick), 1);
      taken.push(pick);
      known = told(known, surveyed.tables[pick] as OutcomeTable);
      cells = split(cells, surveyed.tables[pick] as OutcomeTable);
      const price = this.#priceOf(offer, taken);
      const total = fixed + price + this.#left(cells, open);
      // One reading more must pay for itself and for being one more to hold in mind.
      const clutter = CLUTTER * (price - before);
      idle = total < best.expectedCost - clutter - 1e-9 || taken.length === 1 ? 0 : idle + 1;
      if (idle === 0) {
        best = this.#valued(surveyed, [...taken], cells, this.#left(cells, open), glance.without);
        bestTaken = { taken: [...taken], known };
      }
    }
    const own = ownReading(this.#board, offer, surveyed.tables, best.cells, bestTaken.known);
    if (own === undefined) return best;
    const whole = split(best.cells, surveyed.tables[own] as OutcomeTable);
    return this.#valued(surveyed, [...bestTaken.taken, own], whole, this.#left(whole, open), glance.without);
  }

  /** The best questions by themselves, each of which tells what none of those before it tells. */
  #unlike({ order, surveyed }: Glance): number[] {
    const kept: { readonly index: number; readonly known: Told }[] = [];
    for (const index of order) {
      const table = surveyed.tables[index] as OutcomeTable;
      if (!kept.every(({ known }) => addsTo(this.#board, known, table))) continue;
      kept.push({ index, known: told(nothingTold(this.#board), table) });
      if (kept.length === BREADTH) break;
    }
    return kept.map(({ index }) => index);
  }

  /** The question that leaves the least to pay after those already taken. */
  #pick(rest: readonly number[], taken: readonly number[], cells: readonly Cell[], surveyed: Surveyed): number {
    let pick = rest[0] as number;
    let least = Number.POSITIVE_INFINITY;
    // What no question can save is owed in any case: a question is given up as soon as it can no longer be the best.
    const heavy = coarse(cells, MOST_COARSE);
    const owed = heavy.map((cell) => this.#policy.least(cell.weights));
    const allOwed = owed.reduce((sum, money) => sum + money, 0);
    for (const index of rest) {
      const table = surveyed.tables[index] as OutcomeTable;
      let total = this.#priceOf(surveyed.offer, [...taken, index]) + allOwed;
      for (const [c, cell] of heavy.entries()) {
        if (total >= least - 1e-9) break;
        total += this.#leftOf(table, surveyed.open, cell.weights) - (owed[c] as number);
      }
      if (total < least - 1e-9) {
        pick = index;
        least = total;
      }
    }
    return pick;
  }

  #priceOf(offer: Offer, taken: readonly number[]): number {
    return priceOf(minutesFor(taken.map((index) => offer.questions[index] as OfferQuestion)), this.#shop);
  }

  #valued(surveyed: Surveyed, taken: readonly number[], cells: readonly Cell[], left: number, without: number): Valued {
    const { offer, setUp, fixed, open } = surveyed;
    const questions = taken.map((index) => offer.questions[index] as OfferQuestion);
    const minutes = minutesFor(questions);
    const cost = fixed + priceOf(minutes, this.#shop);
    // Whatever was found, one may go on as if nothing had been asked.
    const after = Math.min(left, this.blind);
    return {
      offer,
      setUp,
      taken: questions,
      tables: taken.map((index) => surveyed.tables[index] as OutcomeTable),
      cells,
      open,
      minutes: setUp.minutes + offer.minutes + minutes,
      cost,
      expectedCost: cost + after,
      alone: cost + after,
      without,
    };
  }

  /**
   * Two steps ahead: each step followed, where that pays, by one of the best others. A short question before a long
   * opening is worth more than one step ahead can see.
   *
   * @param steps  valued steps, the best first
   * @returns      the same steps with `expectedCost` lowered where a partner helps; their order is no longer sorted
   */
  twoAhead(steps: readonly Valued[]): Valued[] {
    const place = (step: Valued): string => placeOfOffer(step.offer.id);
    // The best step of each place: at one's own place there is nothing left to read.
    const partners = steps
      .filter((step, n) => steps.findIndex((other) => place(other) === place(step)) === n)
      .slice(0, PARTNERS + 1);
    return steps.map((step) => {
      let least = step.expectedCost;
      const cells = coarse(step.cells, MOST_COARSE);
      for (const partner of partners) {
        if (place(partner) === place(step)) continue;
        this.policyAfter(step.offer, bothOpen(step, partner), partner.offer);
        const cost = this.#costAfter(partner, step);
        let total = step.cost;
        for (const cell of cells) total += this.#best(cell, step.open, partner, cost);
        least = Math.min(least, total);
      }
      return least < step.expectedCost ? { ...step, expectedCost: least } : step;
    });
  }

  /** What is left to pay after a cell: by the base policy, or by taking the partner first where that is less. */
  #best(cell: Cell, open: Uint8Array, partner: Valued, cost: number): number {
    const base = this.#leaf.cost(cell.weights, open);
    const both = bothOpen({ open }, partner);
    let taking = cost * cell.chance;
    const after = this.#scratch(cell.weights.length);
    for (const way of coarse(partner.cells, MOST_COARSE)) {
      if (taking >= base) break;
      let whole = 0;
      for (let i = 0; i < after.length; i++) {
        // Chance of this way of the partner under each hypothesis, times what is left of it.
        const prior = this.#board.live.weights[i] as number;
        const w = prior > 0 ? ((cell.weights[i] as number) * (way.weights[i] as number)) / prior : 0;
        after[i] = w;
        whole += w;
      }
      if (whole > 1e-12) taking += this.#leaf.cost(after, both);
    }
    return Math.min(base, taking);
  }

  /** Cost of a partner once a step was taken: what both open is opened once. */
  #costAfter(partner: Valued, step: Valued): number {
    let shared = 0;
    step.open.forEach((isOpen, g) => {
      if (isOpen === 1 && this.#board.open[g] === 0 && partner.open[g] === 1) {
        shared += this.#board.ground.groups[g]?.cost ?? 0;
      }
    });
    // Plug out and proof hold on from one dead step to the next.
    const ready = isProvedBy(step.offer) ? readyCost(partner.setUp, this.#shop) : 0;
    return Math.max(0, partner.cost - shared - ready);
  }

  #left(cells: readonly Cell[], open: Uint8Array): number {
    let sum = 0;
    for (const cell of cells) sum += this.#leaf.cost(cell.weights, open);
    return sum;
  }

  /** What is left to pay on average after one more question, without keeping its outcomes. */
  #leftOf(table: OutcomeTable, open: Uint8Array, weights: Float64Array = this.#board.live.weights): number {
    const after = this.#scratch(weights.length);
    let sum = 0;
    for (const chance of table.chance) {
      let whole = 0;
      for (let i = 0; i < weights.length; i++) {
        const w = (weights[i] as number) * (chance[i] as number);
        after[i] = w;
        whole += w;
      }
      if (whole > 1e-12) sum += this.#leaf.cost(after, open);
    }
    return sum;
  }

  #after = new Float64Array(0);

  #scratch(length: number): Float64Array {
    if (this.#after.length !== length) this.#after = new Float64Array(length);
    return this.#after;
  }
}

/** It may show something else than what it almost certainly shows. */
function isInDoubt({ chance }: OutcomeTable, weights: Float64Array): boolean {
  return chance.every((row) => weights.reduce((sum, w, i) => sum + w * (row[i] as number), 0) < 1 - UNLIKELY);
}
