import { priceOf, type Shop } from "../remedy/index.ts";
import type { OutcomeTable } from "../suspect/index.ts";
import type { Target } from "./base-policy.ts";
import type { Board } from "./ground.ts";
import { minutesFor } from "./offer.ts";
import type { Surveyed } from "./survey.ts";

/** A question that says less than this share of what there is to know about one suspect does not test it. */
const TELLING = 0.08;
/** Targets lighter than this keep the usual price of a check. */
const WORTH_PRICING = 0.01;

/** The best test of one suspect, and where it is taken. */
interface Check {
  readonly price: number;
  readonly tells: number;
  /** Price, with what has to be opened for it, and the needless repairs it leaves. */
  readonly whole: number;
  readonly groups: readonly number[];
  readonly place: string;
}

const NONE: Check = {
  price: Number.POSITIVE_INFINITY,
  tells: 0,
  whole: Number.POSITIVE_INFINITY,
  groups: [],
  place: "",
};

/**
 * What it really takes to test each suspect by itself: the question at hand that costs least, with the needless repairs
 * it leaves counted. A suspect that nothing at hand can tell has no test: it can only be mended on the chance.
 *
 * A place that is being valued is used up by going there, so its own questions are no test any more: `without` gives the
 * prices that hold then.
 */
export class Checks {
  readonly #board: Board;
  readonly #shop: Shop;
  readonly #held: Float64Array;
  /** Money of a needless repair of each target. */
  readonly #needless: Float64Array;
  /** The best test of each target, and the best at any other place. */
  readonly #best: Check[];
  readonly #second: Check[];

  constructor(board: Board, surveyed: readonly Surveyed[], shop: Shop) {
    this.#board = board;
    this.#shop = shop;
    const { targets, targetOf } = board.ground;
    this.#held = new Float64Array(targets.length);
    board.live.weights.forEach((w, i) => {
      const t = targetOf[i] as number;
      this.#held[t] = (this.#held[t] as number) + w;
    });
    this.#needless = new Float64Array(targets.length);
    board.live.weights.forEach((w, i) => {
      const t = targetOf[i] as number;
      this.#needless[t] =
        (this.#needless[t] as number) + (w * (board.ground.cure[i] as number)) / (this.#held[t] as number);
    });
    this.#best = targets.map(() => NONE);
    this.#second = targets.map(() => NONE);
    for (const one of surveyed) this.#take(one);
  }

  /** Targets with their tests, once the questions of this place are used up (none for no place). */
  without(place: string): readonly Target[] {
    return this.#board.ground.targets.map((target, t) => {
      if (target.endless || (this.#held[t] as number) < WORTH_PRICING) return target;
      const best = this.#best[t] as Check;
      const check = best.place === place ? (this.#second[t] as Check) : best;
      return { ...target, check: check.price, tells: check.tells, checkGroups: check.groups };
    });
  }

  #take(one: Surveyed): void {
    const { ground, open } = this.#board;
    const access = one.groups.reduce((sum, g) => sum + (open[g] === 1 ? 0 : (ground.groups[g]?.cost ?? 0)), 0);
    const place = placeOfOffer(one.offer.id);
    for (const [q, table] of one.tables.entries()) {
      const asked =
        Math.max(0, one.fixed - access) + priceOf(minutesFor(one.offer.questions.slice(q, q + 1)), this.#shop);
      const told = this.#told(table);
      for (let t = 0; t < told.length; t++) {
        const share = Math.min(1, told[t] as number);
        if (share < TELLING) continue;
        const left = (1 - share) * (1 - (this.#held[t] as number)) * (this.#needless[t] as number);
        const check = { price: asked, tells: share, whole: asked + access + left, groups: one.groups, place };
        const best = this.#best[t] as Check;
        const second = this.#second[t] as Check;
        if (check.whole < best.whole) {
          if (best.place !== place) this.#second[t] = best;
          this.#best[t] = check;
        } else if (place !== best.place && check.whole < second.whole) {
          this.#second[t] = check;
        }
      }
    }
  }

  /** Share of what there is to know about each target that one question tells: mutual information over entropy. */
  #told(table: OutcomeTable): Float64Array {
    const { targetOf } = this.#board.ground;
    const weights = this.#board.live.weights;
    const told = new Float64Array(this.#held.length);
    const joint = new Float64Array(this.#held.length);
    for (const chance of table.chance) {
      joint.fill(0);
      let outcome = 0;
      for (let i = 0; i < weights.length; i++) {
        const w = (weights[i] as number) * (chance[i] as number);
        const t = targetOf[i] as number;
        joint[t] = (joint[t] as number) + w;
        outcome += w;
      }
      if (outcome < 1e-12) continue;
      for (let t = 0; t < told.length; t++) {
        const p = this.#held[t] as number;
        if (p < WORTH_PRICING) continue;
        const both = joint[t] as number;
        told[t] = (told[t] as number) + term(both, p * outcome) + term(outcome - both, (1 - p) * outcome);
      }
    }
    return told.map((nats, t) => {
      const p = this.#held[t] as number;
      return p < WORTH_PRICING ? 0 : nats / (-p * Math.log(p) - (1 - p) * Math.log(Math.max(1e-12, 1 - p)));
    });
  }
}

/** Offers at one place are variations of one another: `at:X3`, `at:X3/pulled` and `at:X3/clipped/heat` all stand at `at:X3`. */
export function placeOfOffer(id: string): string {
  const slash = id.indexOf("/");
  return id.startsWith("at:") && slash > 0 ? id.slice(0, slash) : id;
}

function term(joint: number, independent: number): number {
  return joint <= 0 || independent <= 0 ? 0 : joint * Math.log(joint / independent);
}
