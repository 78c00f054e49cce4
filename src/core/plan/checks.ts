import { priceOf, type Shop } from "../remedy/index.ts";
import type { OutcomeTable } from "../suspect/index.ts";
import type { Target } from "./base-policy.ts";
import { gatherByTarget } from "./by-target.ts";
import type { Board } from "./ground.ts";
import { minutesFor, type OfferQuestion } from "./offer.ts";
import type { Surveyed } from "./survey.ts";

/** A question that says less than this share of what there is to know about one suspect does not test it. */
const TELLING = 0.08;
/** Questions of one place that are put together to test one suspect. */
const MOST_TOGETHER = 3;
/** Targets lighter than this keep the usual price of a check. */
const WORTH_PRICING = 0.01;

/** Places remembered for each target: two may be used up. */
const MOST_PLACES = 3;

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
  /** The best tests of each target, each at another place, the best first. */
  readonly #best: Check[][];
  readonly #without = new Map<string, readonly Target[]>();

  constructor(board: Board, surveyed: readonly Surveyed[], shop: Shop) {
    this.#board = board;
    this.#shop = shop;
    const { targets, targetOf } = board.ground;
    this.#held = new Float64Array(targets.length);
    gatherByTarget(board, this.#held);
    this.#needless = Float64Array.from(targets, (target) => target.forNothing);
    board.live.weights.forEach((w, i) => {
      const t = targetOf[i] as number;
      this.#needless[t] =
        (this.#needless[t] as number) + (w * (board.ground.cure[i] as number)) / (this.#held[t] as number);
    });
    this.#best = targets.map(() => []);
    for (const one of surveyed) this.#take(one);
  }

  /** Targets with their tests, once the questions of these places (two at most) are used up. */
  without(...places: readonly string[]): readonly Target[] {
    const key = places.join(" ");
    const known = this.#without.get(key);
    if (known !== undefined) return known;
    const targets = this.#targetsWithout(places);
    this.#without.set(key, targets);
    return targets;
  }

  #targetsWithout(places: readonly string[]): readonly Target[] {
    return this.#board.ground.targets.map((target, t) => {
      if (target.endless || (this.#held[t] as number) < WORTH_PRICING) return target;
      const check = this.#best[t]?.find((one) => !places.includes(one.place)) ?? NONE;
      return { ...target, check: check.price, tells: check.tells, checkGroups: check.groups };
    });
  }

  #take(one: Surveyed): void {
    const { ground, open } = this.#board;
    const access = one.groups.reduce((sum, g) => sum + (open[g] === 1 ? 0 : (ground.groups[g]?.cost ?? 0)), 0);
    const reached = Math.max(0, one.fixed - access - one.ready);
    const place = placeOfOffer(one.offer.id);
    const told = one.tables.map((table) => this.#told(table));
    for (let t = 0; t < this.#held.length; t++) {
      const p = this.#held[t] as number;
      if (p < WORTH_PRICING) continue;
      const order = told
        .map((shares, q) => ({ q, share: Math.min(1, shares[t] as number) }))
        .filter(({ share }) => share >= TELLING)
        .sort((x, y) => y.share - x.share || x.q - y.q)
        .slice(0, MOST_TOGETHER);
      // One question, or several at this place: what each leaves in doubt the next one takes its share of.
      let doubt = 1;
      const asked: OfferQuestion[] = [];
      for (const { q, share } of order) {
        doubt *= 1 - share;
        asked.push(one.offer.questions[q] as OfferQuestion);
        const price = reached + priceOf(minutesFor(asked), this.#shop);
        const left = doubt * (1 - p) * (this.#needless[t] as number);
        this.#note(t, { price, tells: 1 - doubt, whole: price + access + left, groups: one.groups, place });
      }
    }
  }

  #note(t: number, check: Check): void {
    const best = this.#best[t] as Check[];
    const same = best.findIndex((one) => one.place === check.place);
    if (same >= 0 && (best[same] as Check).whole <= check.whole) return;
    if (same >= 0) best.splice(same, 1);
    best.push(check);
    best.sort((a, b) => a.whole - b.whole);
    best.length = Math.min(best.length, MOST_PLACES);
  }

  /** Share of what there is to know about each target that one question tells: mutual information over entropy. */
  #told(table: OutcomeTable): Float64Array {
    const told = new Float64Array(this.#held.length);
    const joint = new Float64Array(this.#held.length);
    for (const chance of table.chance) {
      const outcome = gatherByTarget(this.#board, joint, chance);
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
