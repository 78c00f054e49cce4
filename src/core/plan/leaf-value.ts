import type { BasePolicy, Ground } from "./base-policy.ts";
import { type Curve, priceOfKnowing } from "./knowing.ts";

/**
 * One remedy as vectors over the live hypotheses, so that trying it on the chance can be priced at any belief: one act
 * may cure many hypotheses (a new relay its contacts, its coil and the joints at its pins).
 */
export interface Act {
  /** Money of doing it with nothing open but what is open now. */
  readonly cost: number;
  /** Share of that for plug out and proof of being dead. */
  readonly ready: number;
  /** Access groups it opens, as indices of `Ground.groups`. */
  readonly groups: readonly number[];
  /** Money lost beside that when it was done for nothing. */
  readonly forNothing: number;
  /** 1 where what it is meant for is at fault. */
  readonly needed: Float64Array;
  /** Share of each hypothesis that is left after it. */
  readonly stays: Float64Array;
  /** Money to be rid of what is left. */
  readonly cure: Float64Array;
  /** Share of the bill of a double fault that it takes away. */
  readonly taken: Float64Array;
}

/** Sum of weights below which a belief is none. */
const NONE = 1e-12;

/**
 * Expected money to the end from where nothing more is looked ahead: by the base policy, by finding out at the price of
 * knowing, or by the best of the remedies worth trying, whichever is least. Every end of the lookahead is priced by it, with and without a test before it, so that a
 * test is held against mending at once by one and the same account.
 */
export class LeafValue {
  readonly #policy: BasePolicy;
  readonly #acts: readonly BoundedAct[];
  readonly #order: number[];
  readonly #now: Uint8Array;
  readonly #left: Float64Array;
  readonly #open: Uint8Array;
  #best: number | undefined;
  readonly #held: Float64Array;
  /** The plug is out and dead is proved already. */
  isDead = false;
  /** Price of knowing more, with the tests that are left. */
  curve: Curve = [];

  /**
   * @param acts  remedies worth trying
   * @param now   access groups that are open now
   */
  constructor(policy: BasePolicy, acts: readonly Act[], now: Uint8Array) {
    this.#policy = policy;
    this.#acts = acts.map((act) => ({
      ...act,
      least: leastOf(act, policy.ground),
      spares: sparesOf(act, policy.ground),
    }));
    this.#order = acts.map((_, a) => a);
    this.#now = now;
    this.#left = new Float64Array(policy.ground.cure.length);
    this.#open = new Uint8Array(policy.ground.groups.length);
    this.#held = new Float64Array(policy.ground.targets.length);
  }

  /** Remedy with which `cost` last came out cheapest, by index; undefined where the base policy did. */
  get act(): number | undefined {
    return this.#best;
  }

  /** Money × the sum of the weights. */
  cost(weights: ArrayLike<number>, open: Uint8Array): number {
    const tested = this.testing(weights, open);
    let best = tested;
    this.#best = undefined;
    let whole = 0;
    for (let i = 0; i < weights.length; i++) whole += weights[i] as number;
    if (whole < NONE) return best;
    // The act that was best last time is often best again, and then the others need not be priced to the end.
    const order = this.#order;
    for (let n = 0; n < order.length; n++) {
      const a = order[n] as number;
      const total = this.#trying(a, weights, whole, open, best, tested);
      if (total >= best) continue;
      best = total;
      this.#best = a;
    }
    const last = this.#best;
    if (last !== undefined && order[0] !== last) {
      order.splice(order.indexOf(last), 1);
      order.unshift(last);
    }
    return best;
  }

  /** Money to the end by tests first: one suspect after the other, or whatever tells most for its price. */
  testing(weights: ArrayLike<number>, open: Uint8Array): number {
    const base = this.#policy.cost(weights, open);
    const { cure, targets, targetOf, groups, stop } = this.#policy.ground;
    const held = this.#held;
    held.fill(0);
    let whole = 0;
    let known = 0;
    for (let i = 0; i < weights.length; i++) {
      const w = weights[i] as number;
      if (w === 0) continue;
      const t = targetOf[i] as number;
      held[t] = (held[t] as number) + w;
      whole += w;
      known += w * Math.min(stop, cure[i] as number);
    }
    if (whole < NONE || known >= base) return base;
    let nats = 0;
    for (let t = 0; t < held.length; t++) {
      const w = held[t] as number;
      if (w === 0) continue;
      nats -= (w / whole) * Math.log(w / whole);
      for (const g of targets[t]?.mendGroups ?? []) if (open[g] === 0) known += w * (groups[g]?.cost ?? 0);
    }
    return Math.min(base, known + whole * priceOfKnowing(this.curve, nats));
  }

  /** Remedy that costs least if nothing more is looked at, by index; -1 where stopping does. */
  mend(weights: ArrayLike<number>, open: Uint8Array): number {
    let whole = 0;
    for (let i = 0; i < weights.length; i++) whole += weights[i] as number;
    let best = whole * this.#policy.ground.stop;
    let mend = -1;
    for (let a = 0; a < this.#acts.length; a++) {
      const total = this.#trying(a, weights, whole, open, best, 0);
      if (total >= best) continue;
      best = total;
      mend = a;
    }
    return mend;
  }

  /**
   * Money of trying one remedy now, and the base policy where it fails.
   *
   * @param limit  whatever comes to this or more need not be told exactly
   */
  costOf(act: Act, weights: ArrayLike<number>, open: Uint8Array, limit = Number.POSITIVE_INFINITY): number {
    let whole = 0;
    let needed = 0;
    let taken = 0;
    const left = this.#left;
    for (let i = 0; i < weights.length; i++) {
      const w = weights[i] as number;
      whole += w;
      needed += w * (act.needed[i] as number);
      taken += w * (act.taken[i] as number);
      left[i] = w * (act.stays[i] as number);
    }
    this.#open.set(open);
    for (const g of act.groups) this.#open[g] = 1;
    const now = whole * this.#price(act, open) + (whole - needed) * act.forNothing;
    if (now >= limit) return now;
    const most = limit - now + taken;
    const after = this.#policy.cost(left, this.#open, act.cure, most);
    return after >= most ? limit : now + Math.max(0, after - taken);
  }

  /** @param tested  money by tests first, for these weights; 0 where it is not known */
  #trying(
    a: number,
    weights: ArrayLike<number>,
    whole: number,
    open: Uint8Array,
    best: number,
    tested: number,
  ): number {
    const act = this.#acts[a] as BoundedAct;
    const price = this.#price(act, open);
    // What it cannot come below: most acts are out of the question at most beliefs.
    let least = whole * (price + act.forNothing);
    let cured = 0;
    for (let i = 0; i < weights.length && least < best; i++) {
      const w = weights[i] as number;
      least += w * (act.least[i] as number);
      cured += w * (act.spares[i] as number);
    }
    if (least >= best) return best;
    // Nor can it save more than all that those it cures would have cost.
    if (tested + whole * price - cured >= best) return best;
    return this.costOf(act, weights, open, best);
  }

  #price(act: Act, open: Uint8Array): number {
    let price = act.cost - (this.isDead ? act.ready : 0);
    for (const g of act.groups) {
      if (open[g] === 1 && this.#now[g] === 0) price -= this.#policy.ground.groups[g]?.cost ?? 0;
    }
    return Math.max(0, price);
  }
}

/** An act with what tells early that it is not worth pricing. */
interface BoundedAct extends Act {
  readonly least: Float64Array;
  readonly spares: Float64Array;
}

/** Going through everything and stopping in the end costs at most so many times what stopping at once does. */
const LONG_WAY = 2;

/** The most that trying the act can spare the search for each hypothesis. */
function sparesOf(act: Act, { stop }: Ground): Float64Array {
  return act.stays.map((stays, i) => (1 - stays) * LONG_WAY * stop + (act.taken[i] as number));
}

/** Money of each hypothesis that trying the act cannot save, less what it loses when it was for nothing. */
function leastOf(act: Act, ground: Ground): Float64Array {
  return act.stays.map(
    (stays, i) =>
      stays * Math.min(ground.stop, act.cure[i] as number) -
      (act.taken[i] as number) -
      (act.needed[i] as number) * act.forNothing,
  );
}
