/**
 * One thing that could be tested by itself and then mended: a part, a group of joints, a cause.
 * Hypotheses that a repairer would mend at the same place share a target.
 */
export interface Target {
  readonly id: string;
  readonly says: string;
  /** Money to test this one by itself, what must be opened apart; infinite where nothing tests it. */
  readonly check: number;
  /** Share of the doubt that the test takes away, 0 to 1; what is left is mended on the chance. */
  readonly tells: number;
  /** Access groups, as indices of `Ground.groups`, that must be open to test it, and to mend it. */
  readonly checkGroups: readonly number[];
  readonly mendGroups: readonly number[];
  /** Money lost beside the remedy's own cost when it was done for nothing. */
  readonly forNothing: number;
  /** Nothing to be done about it: it ends in stopping. */
  readonly endless: boolean;
}

/** What the base policy stands on; money throughout. */
export interface Ground {
  readonly targets: readonly Target[];
  /** Money to open and close each access group once. */
  readonly groups: readonly { readonly id: string; readonly cost: number }[];
  /** Live hypothesis → target. */
  readonly targetOf: Int32Array;
  /** Live hypothesis → expected money to be rid of it once it is known (everything it consists of). */
  readonly cure: Float64Array;
  /** Money lost when the job stops without a repair. */
  readonly stop: number;
}

export interface BaseStep {
  readonly do: "check" | "mend" | "stop";
  /** Index of the target; -1 for stop. */
  readonly target: number;
}

/** Below this share of the whole weight, what is left is charged as stopping. */
const NEGLIGIBLE = 2e-3;

/**
 * Expected cost of finding and mending by the plainest of plans: one target after the other, likeliest for its price
 * first, each tested by itself (or mended on the chance where that is cheaper), until stopping is cheaper than going on.
 * A test that takes away only part of the doubt saves only that part of the needless repairs.
 * What a cover costs is paid with the first target behind it.
 *
 * It is what every other step is held against: a step is worth what it takes off this cost.
 *
 * @source ratio rule: Kadane & Simon 1977; with repairs and a plan to fall back on: Heckerman, Breese & Rommelse 1995 (from memory)
 */
export class BasePolicy {
  readonly ground: Ground;
  /** Calls of `cost`, as the measure of work. */
  evaluations = 0;
  readonly #weight: Float64Array;
  readonly #cure: Float64Array;
  readonly #live: Int32Array;
  readonly #open: Uint8Array;
  readonly #prices: Prices;
  readonly #columns: readonly Float64Array[];
  #first: BaseStep = { do: "stop", target: -1 };
  #targets: readonly Target[];
  #tests: Tests;
  readonly #testsOf = new Map<readonly Target[], Tests>();

  constructor(ground: Ground) {
    this.ground = ground;
    this.#targets = ground.targets;
    this.#tests = testsOf(ground.targets);
    this.#weight = new Float64Array(ground.targets.length);
    this.#cure = new Float64Array(ground.targets.length);
    this.#live = new Int32Array(ground.targets.length);
    this.#open = new Uint8Array(ground.groups.length);
    this.#prices = pricesFor(ground.targets.length);
    this.#columns = Object.values(this.#prices);
  }

  /** From now on tests cost what they cost in these targets: the same ones, in the same order. */
  use(targets: readonly Target[]): void {
    if (targets === this.#targets) return;
    let tests = this.#testsOf.get(targets);
    if (tests === undefined) {
      tests = testsOf(targets);
      this.#testsOf.set(targets, tests);
    }
    this.#targets = targets;
    this.#tests = tests;
  }

  /** First step of the plan that `cost` last priced. */
  get first(): BaseStep {
    return this.#first;
  }

  /**
   * Expected money to the end for these hypotheses.
   *
   * @param weights  of the live hypotheses, in their order, not normalised
   * @param open     access groups that are open, 1 or 0 each
   * @param cure     money to be rid of each hypothesis, where it is not the ground's: after a remedy has failed
   * @param limit    whatever comes to this or more need not be told exactly: the limit is given instead
   * @returns        money × the sum of the weights
   */
  cost(
    weights: ArrayLike<number>,
    open: ArrayLike<number>,
    cure: ArrayLike<number> = this.ground.cure,
    limit = Number.POSITIVE_INFINITY,
  ): number {
    this.evaluations++;
    const { groups, stop } = this.ground;
    const targets = this.#targets;
    const weight = this.#weight;
    const cureSum = this.#cure;
    const live = this.#live;
    const { behind } = this.#tests;
    const { share, checkEach, checkOnce, mendEach, mendOnce } = this.#prices;
    const whole = this.#gather(weights, cure);
    this.#first = { do: "stop", target: -1 };
    if (whole === 0) return 0;

    for (let g = 0; g < groups.length; g++) this.#open[g] = open[g] as number;
    let count = 0;
    // What the rest cannot come below: each mended as if known, or stopped.
    let leastLeft = 0;
    for (let t = 0; t < targets.length; t++) {
      const w = weight[t] as number;
      if (w <= NEGLIGIBLE * whole) continue;
      live[count++] = t;
      leastLeft += Math.min(w * stop, cureSum[t] as number);
    }
    let best = Math.min(whole * stop, limit);
    if (leastLeft >= best) return best;
    for (let n = 0; n < count; n++) this.#priceOf(n, live[n] as number);

    let paid = 0;
    let left = whole;
    let first: BaseStep | undefined;
    const least = 1e-9 * whole;
    while (count > 0 && paid + leastLeft < best) {
      let pick = -1;
      // Weight for money: w / step is compared crosswise, a division for each would be the dearest thing here.
      let pickWeight = 0;
      let pickStep = 1;
      for (let n = 0; n < count; n++) {
        const checked = left * (checkEach[n] as number) + (checkOnce[n] as number);
        const onChance = left * (mendEach[n] as number) - (mendOnce[n] as number);
        const step = Math.min(onChance, checked) + least;
        const w = share[n] as number;
        if (w * pickStep > pickWeight * step) {
          pick = n;
          pickWeight = w;
          pickStep = step;
        }
      }
      if (pick < 0) break;
      const t = live[pick] as number;
      const target = targets[t] as Target;
      const pickMend =
        left * (mendEach[pick] as number) - (mendOnce[pick] as number) <
        left * (checkEach[pick] as number) + (checkOnce[pick] as number);
      paid += pickStep - least + (cureSum[t] as number);
      left -= weight[t] as number;
      leastLeft -= Math.min((weight[t] as number) * stop, cureSum[t] as number);
      first ??= { do: pickMend ? "mend" : "check", target: t };
      count--;
      live[pick] = live[count] as number;
      for (const column of this.#columns) column[pick] = column[count] as number;
      // What is opened to mend is opened for that one alone; only what is opened for all stays open for the next.
      const opened = this.#opens(pickMend ? target.mendGroups : target.checkGroups);
      if (opened !== 0) {
        for (let n = 0; n < count; n++) {
          if (((behind[live[n] as number] as number) & opened) !== 0) this.#priceOf(n, live[n] as number);
        }
      }
      const stopped = paid + Math.max(0, left) * stop;
      if (stopped < best) {
        best = stopped;
        this.#first = first;
      }
    }
    return best;
  }

  /** Weight of each target, and money to be rid of all that it stands for; gives the whole weight. */
  #gather(weights: ArrayLike<number>, cure: ArrayLike<number>): number {
    const { targetOf } = this.ground;
    const weight = this.#weight;
    const cureSum = this.#cure;
    weight.fill(0);
    cureSum.fill(0);
    let whole = 0;
    for (let i = 0; i < targetOf.length; i++) {
      const w = weights[i] as number;
      if (w === 0) continue;
      const t = targetOf[i] as number;
      weight[t] = (weight[t] as number) + w;
      cureSum[t] = (cureSum[t] as number) + w * (cure[i] as number);
      whole += w;
    }
    return whole;
  }

  /** Prices a target's test and its mending on the chance, with what must still be opened for them, as the nth. */
  #priceOf(n: number, t: number): void {
    const target = this.#targets[t] as Target;
    const { check, doubt, forNothing } = this.#tests;
    const { share, checkEach, checkOnce, mendEach, mendOnce } = this.#prices;
    const w = this.#weight[t] as number;
    share[n] = w;
    const toMend = this.#unpaid(target.mendGroups);
    // Money of a needless repair; it is paid by all that is left but the target itself.
    const needless = (this.#cure[t] as number) / w + (forNothing[t] as number);
    const doubted = (doubt[t] as number) * needless;
    checkEach[n] = this.#unpaid(target.checkGroups) + (check[t] as number) + doubted;
    checkOnce[n] = w * toMend - w * doubted;
    mendEach[n] = target.endless ? Number.POSITIVE_INFINITY : toMend + needless;
    mendOnce[n] = w * needless;
  }

  /** Opens these; gives a mark of those that were shut. */
  #opens(groups: readonly number[]): number {
    let opened = 0;
    for (const g of groups) {
      if (this.#open[g] === 0) opened |= markOf(g);
      this.#open[g] = 1;
    }
    return opened;
  }

  #unpaid(needed: readonly number[]): number {
    let sum = 0;
    for (const g of needed) if (this.#open[g] === 0) sum += (this.ground.groups[g] as { cost: number }).cost;
    return sum;
  }

  /** Money that no test can save: every hypothesis mended as if it were known, or stopped where that is less. */
  least(weights: ArrayLike<number>): number {
    const { cure, stop } = this.ground;
    let sum = 0;
    for (let i = 0; i < cure.length; i++) sum += (weights[i] as number) * Math.min(stop, cure[i] as number);
    return sum;
  }
}

/** What is read of every target at every step, side by side in memory. */
interface Tests {
  readonly check: Float64Array;
  /** Share of the doubt that the test leaves. */
  readonly doubt: Float64Array;
  readonly forNothing: Float64Array;
  /** Marks of the groups that it may be behind. */
  readonly behind: Int32Array;
}

/** One bit for each group; groups that share one are only asked once too often. */
function markOf(group: number): number {
  return 1 << (group & 31);
}

function testsOf(targets: readonly Target[]): Tests {
  return {
    check: Float64Array.from(targets, ({ check }) => check),
    doubt: Float64Array.from(targets, ({ tells }) => 1 - tells),
    forNothing: Float64Array.from(targets, ({ forNothing }) => forNothing),
    behind: Int32Array.from(targets, ({ checkGroups, mendGroups }) =>
      [...checkGroups, ...mendGroups].reduce((marks, g) => marks | markOf(g), 0),
    ),
  };
}

/**
 * Money of going next to each target that is left, as a straight line in the weight that is left: so much each, and so
 * much once.
 */
interface Prices {
  /** Weight of the target itself. */
  readonly share: Float64Array;
  readonly checkEach: Float64Array;
  readonly checkOnce: Float64Array;
  readonly mendEach: Float64Array;
  /** To be taken off. */
  readonly mendOnce: Float64Array;
}

function pricesFor(count: number): Prices {
  const column = (): Float64Array => new Float64Array(count);
  return { share: column(), checkEach: column(), checkOnce: column(), mendEach: column(), mendOnce: column() };
}
