import { type Account, accountOf, type WorkedJob } from "../ledger/index.ts";
import { type AccessGroups, accessChain, type Plan } from "../plan/index.ts";
import { type Course, cureOf, priceOf, reachOf, type Shop, stopCost, workPrice } from "../remedy/index.ts";
import { liveHypotheses } from "../suspect/index.ts";
import type { Choice, Choices } from "./choice.ts";
import { dutyFor, type ModelDays, type SparePartRule } from "./duty.ts";
import { lifeOf, type ServiceLife } from "./life.ts";
import { repairLimit } from "./repair-limit.ts";
import { type Explained, effectOf, explained, type Row, rowsOf } from "./rows.ts";
import { type Spread, spreadOf, threePoints, type Weighed } from "./spread.ts";
import { usedRow } from "./used.ts";
import { wayOf } from "./way.ts";

/** What is known beside the job. */
export interface ChoiceFacts {
  readonly lives: readonly ServiceLife[];
  readonly duties: readonly SparePartRule[];
  /** Today, ISO 8601; without it no duty is dated. */
  readonly date?: string;
  /** The plan of the job as it stands: from it, what finding the fault will still cost. Without it that is not counted. */
  readonly plan?: Plan;
}

/** A row that mends less often than this is not shown, unless nothing mends more often (our own choice). */
const LEAST_CURED = 0.25;
const MOST_ROWS = 6;
/** Above these odds of one fault there is nothing left to be found. */
const FOUND = 0.9;

/**
 * What the customer can choose between now: each remedy of the possible faults that is likely enough, the same with a
 * used part where the shop fits one, "find and mend" while the fault is not found, and stopping.
 *
 * It weighs the same courses, odds and prices that the plan weighs. What is paid counts the work done so far and the
 * way to the part; it does not count finding the fault, except in "find and mend".
 */
export function choicesOf(worked: WorkedJob, facts: ChoiceFacts): Choices {
  const { job, shop, belief } = worked;
  const account = accountOf(job);
  const board = new Board(worked, facts, account);
  const rows = rowsOf(board.all, board.stop, board.tryCost);
  const singles = [...rows, ...rows.flatMap((row) => usedRow(row, shop) ?? [])].map((row) => board.choose(row));
  const [likeliest] = belief.parts;
  const finding = likeliest !== undefined && likeliest.p < FOUND ? board.findAndMend() : [];
  const shown = worthShowing(singles, finding.length > 0);
  const trading = shop.trading;
  const { limit: allowed } = account;
  return {
    currency: shop.currency,
    choices: [...finding, ...shown, board.stopping()],
    ...(likeliest === undefined ? {} : { likeliest: { says: likeliest.says, p: likeliest.p } }),
    limit: board.limit,
    callOut: shop.callOut,
    ...(trading === undefined ? {} : { diagnosis: trading.diagnosis }),
    ...(allowed === undefined ? {} : { allowed }),
    ...(account.payer === undefined ? {} : { payer: account.payer.name }),
  };
}

/** The likeliest to mend first; a used part stands behind its new one, and does not push another row out. */
function worthShowing(all: readonly Choice[], mayBeNone: boolean): readonly Choice[] {
  const order = [...all].sort(
    (a, b) => b.cured - a.cured || a.inTheEnd.mean - b.inTheEnd.mean || (a.id < b.id ? -1 : 1),
  );
  const fresh = order.filter(({ way }) => way !== "used part");
  const likely = fresh.filter(({ cured }) => cured >= LEAST_CURED).slice(0, MOST_ROWS);
  const kept = likely.length > 0 || mayBeNone ? likely : fresh.slice(0, 1);
  return kept.flatMap((choice) => [choice, ...order.filter(({ id }) => id === `${choice.id}, used`)]);
}

/** A job laid out for choosing: explanations with their courses, and what is paid whatever is chosen. */
class Board {
  readonly all: readonly Explained[];
  readonly limit: Choices["limit"];
  readonly stop: number;
  readonly tryCost: number;
  readonly #worked: WorkedJob;
  readonly #facts: ChoiceFacts;
  readonly #account: Account;
  readonly #model: ModelDays;
  readonly #groups: AccessGroups;
  readonly #live: readonly { readonly hypothesis: number; readonly weight: number }[];
  /** Minutes of the work done so far: paid whatever is chosen, but for stopping. */
  readonly #soFar: number;

  constructor(worked: WorkedJob, facts: ChoiceFacts, account: Account) {
    const { job, shop, state, belief } = worked;
    const { ageYears, replacementPrice, lastUnit } = job.machine;
    const sheet = job.sheet.kind === "family" ? job.sheet.name : "";
    const country = shop.trading?.country;
    const live = liveHypotheses(belief);
    this.#worked = worked;
    this.#facts = facts;
    this.#account = account;
    this.#model = {
      sheet,
      ...(country === undefined ? {} : { country }),
      ...(facts.date === undefined ? {} : { date: facts.date }),
      ...(ageYears === undefined ? {} : { ageYears }),
      ...(lastUnit === undefined ? {} : { lastUnit }),
    };
    this.limit = repairLimit(shop, lifeOf(facts.lives, sheet, country), ageYears, replacementPrice);
    // As the plan counts it, so that both give the same advice.
    this.stop = stopCost(shop, ageYears, replacementPrice);
    this.tryCost = priceOf(shop.minutes.verify, shop);
    this.#soFar = state.work.minutes;
    this.#groups = new Map(worked.case.candidates.flatMap(({ machine }) => machine.access.map((one) => [one.id, one])));
    this.#live = [...live.hypotheses].map((hypothesis, i) => ({ hypothesis, weight: live.weights[i] as number }));
    this.all = this.#explained(new Set(state.work.whys.keys()));
  }

  #explained(whyKnown: ReadonlySet<string>): readonly Explained[] {
    const { case: the, shop, state } = this.#worked;
    const done = new Set(state.repairs.map(({ on, remedy }) => `${on}/${remedy}`));
    return explained(the, this.#live, shop, whyKnown, done);
  }

  /** The explanations once it is known why each protector opened: that is asked before a job ends. */
  #answered(): readonly Explained[] {
    const parts = this.#worked.case.candidates.flatMap(({ machine }) => machine.parts);
    return this.#explained(new Set(parts.map(({ id }) => id)));
  }

  get #shop(): Shop {
    return this.#worked.shop;
  }

  choose(row: Row): Choice {
    const { courses, machine } = row;
    const shop = this.#shop;
    const access = this.#accessMinutes(row);
    const verify = shop.minutes.verify;
    const isFetched = courses.some(({ fetched }) => fetched);
    const price = courses.reduce((sum, course) => sum + course.price, 0);
    const minutes = courses.reduce((sum, course) => sum + course.minutes, access + verify);
    const effects = this.all.map((explanation) => ({ ...effectOf(row, explanation), explanation }));
    const cured = effects.reduce((sum, one) => sum + one.explanation.weight * one.cured, 0);
    const back = effects.reduce((sum, one) => sum + one.explanation.weight * one.cured * one.back, 0) / (cured || 1);
    const pays = spreadOf(this.#paid(row, access + verify, isFetched));
    const months = row.used === undefined ? shop.trading?.guaranteeMonths?.new : shop.trading?.guaranteeMonths?.used;
    const [first] = courses;
    const ordered = courses.find(({ fetched }) => fetched) ?? courses.find((course) => course.price > 0);
    const asksWhy = courses.find((course) => course.asksWhy !== undefined)?.asksWhy;
    const duty = row.used !== undefined || ordered === undefined ? undefined : this.#duty(ordered, row);
    return {
      id: row.id,
      way: row.used !== undefined ? "used part" : first === undefined ? "adjust" : wayOf(first, machine),
      says: courses.map(({ says }) => says).join("; "),
      on: courses.map(({ on }) => on),
      pays,
      inTheEnd: spreadOf(this.#inTheEnd(row, effects, pays.mean)),
      cured,
      ...(cured > 0 ? { back: withinMonths(back, months) } : {}),
      ...(months === undefined ? {} : { guaranteeMonths: months }),
      minutes,
      ...(isFetched ? { order: this.#order(price) } : {}),
      overLimit: this.#isOver(pays),
      ...(asksWhy === undefined ? {} : { asksWhy }),
      ...(duty === undefined ? {} : { duty }),
    };
  }

  /** Finding the fault, whatever it is, and mending it where that pays. */
  findAndMend(): readonly Choice[] {
    const shop = this.#shop;
    const { plan } = this.#facts;
    const best = plan?.steps[0]?.expectedCost;
    const finding = plan === undefined || best === undefined ? 0 : Math.max(0, best - plan.least);
    const findingMinutes = (finding * 60) / shop.perHour;
    const pays: Weighed[] = [];
    const ends: Weighed[] = [];
    let mended = 0;
    let back = 0;
    let isFetched = 0;
    let deposit = 0;
    for (const explanation of this.#answered()) {
      const { weight, courses } = explanation;
      const cures = courses.map((own) => cureOf(own, this.stop, this.tryCost));
      const firsts = cures.flatMap(({ courses: [first] }) => first ?? []);
      const isMendable = courses.length > 0 && firsts.length === courses.length;
      const chance = isMendable ? cures.reduce((product, one) => product * one.mended, 1) : 0;
      const price = firsts.reduce((sum, course) => sum + course.price, 0);
      const work = firsts.reduce((sum, course) => sum + course.minutes, shop.minutes.verify);
      const minutes = this.#soFar + findingMinutes + (isMendable ? work : 0);
      const visit = isMendable && firsts.some(({ fetched }) => fetched);
      const paid = shop.callOut + workPrice(minutes, shop) + (isMendable ? price : 0) + (visit ? shop.secondVisit : 0);
      const rest = courses.length === 0 && explanation.hypothesis.kind === "nothing wrong" ? 0 : this.stop;
      pays.push({ amount: paid, weight });
      ends.push({ amount: paid, weight: weight * chance }, { amount: paid + rest, weight: weight * (1 - chance) });
      mended += weight * chance;
      back += weight * chance * (1 - firsts.reduce((product, one) => product * (1 - one.back), 1));
      if (visit) {
        isFetched += weight;
        deposit += weight * price;
      }
    }
    if (mended === 0) return [];
    const spread = spreadOf(pays);
    const months = shop.trading?.guaranteeMonths?.new;
    return [
      {
        id: "find and mend",
        way: "find and mend",
        says: "find the fault and mend it, where it pays",
        on: [],
        pays: spread,
        inTheEnd: spreadOf(ends),
        cured: mended,
        back: withinMonths(back / mended, months),
        ...(months === undefined ? {} : { guaranteeMonths: months }),
        minutes: findingMinutes + shop.minutes.verify,
        ...(isFetched > 0.5 ? { order: this.#order(deposit / isFetched) } : {}),
        overLimit: this.#isOver(spread),
      },
    ];
  }

  /** Leaving it: call-out and diagnosis are paid, and the machine is lost. */
  stopping(): Choice {
    const shop = this.#shop;
    const diagnosis = shop.trading?.diagnosis;
    const found = diagnosis === undefined || diagnosis === 0 ? workPrice(this.#soFar, shop) : diagnosis;
    const paid = shop.callOut + found;
    const lost = paid + this.stop - priceOf(shop.minutes.wrapUp, shop);
    return {
      id: "stop",
      way: "stop",
      says: "leave it as it is, made safe",
      on: [],
      pays: { lo: paid, mean: paid, hi: paid },
      inTheEnd: { lo: lost, mean: lost, hi: lost },
      cured: 0,
      minutes: shop.minutes.wrapUp,
      overLimit: this.#isOver({ lo: paid, mean: paid, hi: paid }),
    };
  }

  /** Amounts that a row may come to, over the ranges of its minutes and its parts. */
  #paid(row: Row, otherMinutes: number, isFetched: boolean): readonly Weighed[] {
    const { courses, machine } = row;
    const shop = this.#shop;
    const share = row.used?.price ?? 1;
    const reaches = courses.map((course) => reachOf(course, machine, shop));
    const total = (of: (reach: (typeof reaches)[number]) => number): number =>
      reaches.reduce((sum, reach) => sum + of(reach), 0);
    const minutes = threePoints(
      total((reach) => reach.minutes.lo),
      courses.reduce((sum, course) => sum + course.minutes, 0),
      total((reach) => reach.minutes.hi),
    );
    const parts = threePoints(
      share * total((reach) => reach.price.lo),
      courses.reduce((sum, course) => sum + course.price, 0),
      share * total((reach) => reach.price.hi),
    );
    const fixed = shop.callOut + (isFetched ? shop.secondVisit : 0);
    return minutes.flatMap((work) =>
      parts.map((part) => ({
        amount: fixed + workPrice(this.#soFar + otherMinutes + work.amount, shop) + part.amount,
        weight: work.weight * part.weight,
      })),
    );
  }

  /** What a row comes to under each explanation, cured and not. */
  #inTheEnd(
    row: Row,
    effects: readonly { readonly cured: number; readonly back: number; readonly explanation: Explained }[],
    paid: number,
  ): readonly Weighed[] {
    const ids = new Set(row.courses.map(({ id }) => id));
    return effects.flatMap(({ cured, back, explanation }) => {
      const { weight, courses, hypothesis } = explanation;
      const rest =
        hypothesis.kind === "nothing wrong"
          ? 0
          : courses.length === 0
            ? this.stop
            : courses.reduce((sum, own) => {
                const left = own.filter(({ id }) => !ids.has(id));
                return sum + cureOf(left, this.stop, this.tryCost).cost;
              }, 0);
      const ofReturn = back * this.#shop.comeback;
      return [
        { amount: paid + ofReturn, weight: weight * cured },
        { amount: paid + Math.min(rest, this.stop), weight: weight * (1 - cured) },
      ];
    });
  }

  /** Minutes to open what is in the way and to close it again; what stands open is only closed. */
  #accessMinutes({ courses, machine }: Row): number {
    const ids = courses.flatMap(({ on }) => {
      const thing = [...machine.parts, ...machine.assemblies].find(({ id }) => id === on);
      return thing?.access ?? [];
    });
    const groups = new Set(ids.flatMap((id) => accessChain(id, this.#groups)));
    const { open } = this.#worked.state.work;
    return [...groups].reduce(
      (sum, { id, openMinutes, closeMinutes }) => sum + closeMinutes + (open.has(id) ? 0 : openMinutes),
      0,
    );
  }

  #order(price: number): NonNullable<Choice["order"]> {
    const { trading } = this.#shop;
    const days = trading?.orderDays;
    return { ...(days === undefined ? {} : { days }), deposit: price * (trading?.deposit ?? 0) };
  }

  #duty({ on, assembly }: Course, { machine }: Row): Choice["duty"] {
    const part = assembly ? on : machine.parts.find(({ id }) => id === on)?.instance.kind;
    return part === undefined ? undefined : dutyFor(this.#facts.duties, part, this.#model);
  }

  #isOver({ mean }: Spread): boolean {
    const { limit } = this.#account;
    return limit !== undefined && mean > limit.amount;
  }
}

/** A chance within twelve months as one within so many: a fault comes back at the same rate all along. */
function withinMonths(back: number, months = 12): number {
  return 1 - (1 - back) ** (months / 12);
}
