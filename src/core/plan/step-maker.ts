import { priceOf } from "../remedy/index.ts";
import { cautionsFor } from "./cautions.ts";
import type { Board } from "./ground.ts";
import { instrumentWords } from "./instrument.ts";
import { doubtOf, toldByCells } from "./knowing.ts";
import type { Lookahead } from "./lookahead.ts";
import type { Offer } from "./offer.ts";
import { CUSTOMER } from "./offer-questions.ts";
import type { PlanStep, Unanswered } from "./plan.ts";
import { outcomesOf, questionOf, settles } from "./reasons.ts";
import type { Repairable } from "./repairs.ts";
import type { Scene } from "./scene.ts";
import { accessChain, type SetUpAct } from "./set-up.ts";
import { storedEnergy } from "./stored-energy.ts";
import type { Surveyed } from "./survey.ts";
import type { Valued } from "./valued.ts";
import type { WhyLook } from "./why-open.ts";

/** Places whose batches are worked out; all others are told by their best single question. */
const BATCHES = 6;
/** What a question must earn beyond its cost, in its costs: people tire of being asked (from memory, no source). */
const PATIENCE = 1.5;
/**
 * Expected costs that differ by less than this share are as good as equal: looking one step ahead may err by so much.
 *
 * @source worst loss of one-step lookahead against the exact optimum over published problems, 7.3 %: Heckerman, Breese & Rommelse 1995 (from memory)
 */
const NEARLY = 0.073;
/** A step is worth going to by itself when it earns this many times its cost. */
const WORTHWHILE = 3;
/** A step leads only if what is mended next hangs on it in at least so many of 1. */
const TURNS = 0.05;
/** Share of what a small question saves that it must save by itself to lead, whatever would follow it. */
const OWN = 0.5;
/** A repair that mends the job in less than so much of 1 does not do it by itself. */
const HARDLY = 0.05;
/**
 * Before stopping, a step may cost so many times what its share of the doubt would save: covers that it opens serve the next
 * steps too, and of fewer suspects every step tells more (from memory, held against simulated jobs).
 */
const BEFORE_STOPPING = 3;
/** Steps that are valued two ahead. */
const TWO_AHEAD = 8;

/** The step that stops and talks: it is not named again once it was said that the customer wants to go on. */
export const TALK = "talk";

/** Turns valued offers into steps that explain themselves. */
export class StepMaker {
  readonly #scene: Scene;
  readonly #board: Board;
  readonly #lookahead: Lookahead;

  /** Money of the best that can be done without any test. */
  readonly #blind: number;

  /** The remedy that would be tried next without any test; undefined where it would be stopping. */
  readonly #remedy: Repairable | undefined;
  /** What each remedy does, in words. */
  readonly #remedies: readonly string[];

  /** @param remedies  those that the lookahead knows as its acts, in that order */
  constructor(scene: Scene, lookahead: Lookahead, remedies: readonly Repairable[]) {
    this.#blind = lookahead.blind;
    this.#remedy = remedies[lookahead.tried.indexOf(lookahead.blind)];
    this.#remedies = remedies.map(({ course }) => course.says);
    this.#scene = scene;
    this.#board = scene.board;
    this.#lookahead = lookahead;
  }

  /** Steps that only tell something, each worth what it costs. */
  informing(surveyed: readonly Surveyed[]): { readonly steps: readonly PlanStep[]; readonly lead: string | undefined } {
    const glances = surveyed.map((one) => this.#lookahead.glance(one)).filter((glance) => glance !== undefined);
    const hopeful = [...glances]
      .sort((a, b) => a.hope - b.hope || (a.offer.id < b.offer.id ? -1 : 1))
      .slice(0, BATCHES);
    const valued = glances.map((glance) => (hopeful.includes(glance) ? this.#lookahead.batch(glance) : glance));
    const ranked = valued.filter((one) => one.expectedCost < this.#blind * (1 + NEARLY)).sort(byCost);
    const paying = ranked.filter(
      (one) => one.expectedCost < this.#blind && one.without - one.expectedCost > demanded(one),
    );
    const looked = ranked.filter((one) => !paying.includes(one) && this.#saves(one));
    const told = this.#lookahead.twoAhead([...paying.slice(0, TWO_AHEAD), ...looked.slice(0, 2)]).sort(byCost);
    const busy = told.filter((one) => !this.#isIdle(one, told));
    const worth = busy.length > 0 ? busy : this.#goingOn(valued);
    const complaint = this.#complaint(valued);
    const before = this.#remedy === undefined && busy.length === 0 ? worth[0] : undefined;
    const lead = complaint ?? this.#leading(worth)[0] ?? before;
    const steps = lead === undefined || worth.includes(lead) ? worth : [lead, ...worth];
    return { steps: steps.map((one) => this.tell(one)), lead: lead?.offer.id };
  }

  /** Where nobody has said yet what the machine does, that is asked before anything is gone to. */
  #complaint(valued: readonly Valued[]): Valued | undefined {
    const { signs, repairs } = this.#scene.state;
    return signs.size > 0 || repairs.length > 0 ? undefined : valued.find(({ offer }) => offer.id === CUSTOMER);
  }

  /**
   * None earns its cost at the price of knowing, so that price was wrong here. To know all for nothing would save so much;
   * the step that tells most for its cost is taken while it is no bad bargain beside that. Where a repair stands ready, it
   * must pay by itself; before stopping it need not.
   */
  #goingOn(steps: readonly Valued[]): Valued[] {
    const knowingSaves = this.#blind - this.#lookahead.least;
    const doubt = doubtOf(this.#board);
    const patience = this.#remedy === undefined ? BEFORE_STOPPING : 1;
    const rated = steps
      .filter((one) => this.#remedy === undefined || (isInDoubt(one) && !this.#isIdle(one, [one])))
      .map((one) => {
        const saved = (knowingSaves * toldByCells(this.#board, one.cells)) / doubt;
        return { rate: saved / (one.cost + 1e-9), one: { ...one, expectedCost: this.#blind + one.cost - saved } };
      })
      .sort((a, b) => b.rate - a.rate || byCost(a.one, b.one));
    return rated
      .filter(({ rate }) => patience * rate > 1)
      .slice(0, 1)
      .map(({ one }) => one);
  }

  /**
   * Of the steps that come to nearly the same as the best thing to do, and are worth going to by themselves, the one goes
   * first that costs least for its chance of changing what is mended: looks and questions before covers, a reading before
   * the part it is about; but at an open cover not what hardly tells anything, however little it costs. None that is idle.
   */
  #leading(told: readonly Valued[]): Valued[] {
    const best = Math.min(this.#blind, ...told.map((one) => one.expectedCost));
    return told
      .filter((one) => one.expectedCost <= best * (1 + NEARLY))
      .filter((one) => one.without - one.alone > WORTHWHILE * one.cost || this.#saves(one))
      .filter((one) => !isSmall(one) || one.without - one.alone > OWN * (one.without - one.expectedCost))
      .map((one) => ({ one, turns: this.#lookahead.ahead.turns(one) }))
      .filter(({ turns }) => turns >= TURNS)
      .sort((a, b) => a.one.cost / a.turns - b.one.cost / b.turns || byCost(a.one, b.one))
      .slice(0, 1)
      .map(({ one }) => one);
  }

  /**
   * It leads to one and the same repair (something small: to one and the same look) whatever comes out; or it is something
   * small before a repair that would be next anyway, beside which nothing is worth going to.
   */
  #isIdle(one: Valued, told: readonly Valued[]): boolean {
    if (this.#lookahead.ahead.parts(one, isSmall(one)) < TURNS && !this.#saves(one)) return true;
    return (
      this.#remedy !== undefined && told.every(isSmall) && this.#lookahead.ahead.saves(one) - one.cost < demanded(one)
    );
  }

  /** Something to look at or to read before the repair that would be next, cheap beside what it may waste. */
  #saves(one: Valued): boolean {
    if (isSmall(one)) return false;
    return this.#remedy !== undefined && this.#lookahead.ahead.saves(one) > one.cost;
  }

  /** A step that only tells something, in full. */
  tell(valued: Valued): PlanStep {
    const { offer } = valued;
    const order = inHandOrder(offer, valued);
    return {
      ...this.#frame(offer, inHandFirst(valued, order)),
      minutes: valued.minutes,
      cost: valued.cost,
      expectedCost: valued.expectedCost,
      worth: this.#blind - valued.expectedCost,
      settles: settles(this.#board, valued),
      questions: order.map((n) =>
        questionOf(this.#board, valued.taken[n] as Valued["taken"][number], valued.tables[n]),
      ),
      outcomes: outcomesOf(
        this.#board,
        valued,
        order,
        (cell) => this.#lookahead.ahead.next(valued, cell),
        this.#remedies,
      ),
      ...this.#authority(valued.cost),
    };
  }

  repair(repair: Repairable, expectedCost: number, unanswered: readonly Unanswered[]): PlanStep {
    const { course } = repair;
    const waits = unanswered.find((one) => one.protector === course.asksWhy || course.id.includes(`${one.protector}/`));
    const needs = { energy: repair.energy, access: repair.access, pulled: [] };
    const suspect = this.#scene.suspects.find((one) => one.id === course.on);
    // What may hurt at a look at a cause may hurt where it is put right: scorched lint above all.
    const hazards = [...(suspect?.cause?.look?.cautions ?? []), ...(suspect?.hazards ?? [])];
    const offer: Offer = {
      id: `do:${course.id}`,
      do: "repair",
      says: course.says,
      needs,
      minutes: course.minutes,
      questions: [],
      cautions: repair.energy === "any" ? [] : ["isolate", "no-bridging"],
      sheetCautions: hazards,
    };
    return {
      ...this.#frame(offer, repair.setUp.acts),
      minutes: repair.setUp.minutes + course.minutes,
      cost: repair.act.cost,
      expectedCost,
      worth: this.#blind - expectedCost,
      settles:
        repair.mends < HARDLY
          ? "puts one thing right; by itself it hardly mends what was complained of"
          : "mends it, or shows that it was something else",
      questions: [],
      outcomes: [],
      course: { ...course, mends: repair.mends },
      ...(waits === undefined ? {} : { waitsForWhy: waits.protector }),
      ...this.#authority(repair.act.cost),
    };
  }

  /** What is read before a part is bought, though nobody doubts it any more: its first question. */
  owed({ offer, setUp, tables, fixed }: Surveyed, repair: PlanStep): PlanStep {
    const [question] = offer.questions;
    const [table] = tables;
    if (question === undefined || table === undefined) throw new RangeError("owed: nothing to read");
    const price = priceOf(question.minutes, this.#scene.shop);
    return {
      ...this.#frame(offer, setUp.acts),
      minutes: setUp.minutes + offer.minutes + question.minutes,
      cost: fixed + price,
      expectedCost: repair.expectedCost + price,
      worth: -price,
      settles: "makes sure before a part is bought",
      questions: [questionOf(this.#board, question, table)],
      outcomes: [],
    };
  }

  why(look: WhyLook): PlanStep {
    const expectedCost = this.#lookahead.base + look.cost - look.saves;
    return {
      ...this.#frame(look.offer, look.setUp.acts),
      minutes: look.minutes,
      cost: look.cost,
      expectedCost,
      worth: look.saves - look.cost,
      settles: `says why ${look.protector.says} opened; without that it opens again`,
      questions: look.offer.questions.map((question) => questionOf(this.#board, question, undefined)),
      outcomes: [],
    };
  }

  /** After a repair: the same path read again, and the machine seen to work. */
  verify(): PlanStep[] {
    const repair = this.#scene.state.repairs.at(-1);
    if (repair === undefined || repair.looked) return [];
    const offer: Offer = {
      id: `verify:${repair.event}`,
      do: "verify",
      says: "Read the same path again, then let it run and see it work",
      needs: { energy: "any", access: [], pulled: [] },
      minutes: this.#scene.shop.minutes.verify,
      questions: [],
      cautions: ["closed", "rcd-lead", "prove-dead", "hot"],
      sheetCautions: [],
    };
    const cost = priceOf(offer.minutes, this.#scene.shop);
    return [
      {
        ...this.#frame(offer, []),
        minutes: offer.minutes,
        cost,
        expectedCost: cost,
        worth: 0,
        settles: "one job in eight has a second fault in the same path",
        questions: repair.path.flatMap((observation) =>
          observation.kind === "reading"
            ? [
                {
                  says: observation.probe.id,
                  observation,
                  probe: observation.probe,
                  meter: observation.meter,
                  bands: [],
                  others: 1,
                },
              ]
            : [],
        ),
        outcomes: [],
      },
    ];
  }

  /** Time is up: whatever comes next is the customer's decision. */
  talk(stop: number): PlanStep {
    const minutes = Math.round(this.#scene.state.minutes);
    return {
      ...this.stop(stop),
      id: TALK,
      do: "talk",
      says: `${minutes} minutes without an answer: stop and talk to the customer`,
      settles: "whether to go on",
      expectedCost: this.#lookahead.base,
    };
  }

  stop(stop: number): PlanStep {
    const offer: Offer = {
      id: "stop",
      do: "stop",
      says: "Stop here, say what was found, leave it safe: not worth it",
      needs: { energy: "any", access: [], pulled: [] },
      minutes: this.#scene.shop.minutes.wrapUp,
      questions: [],
      cautions: [],
      sheetCautions: [],
    };
    return {
      ...this.#frame(offer, []),
      minutes: offer.minutes,
      cost: stop,
      expectedCost: stop,
      worth: this.#blind - stop,
      settles: "a repair would cost more than the machine is still worth",
      questions: [],
      outcomes: [],
    };
  }

  #frame(offer: Offer, setUp: readonly SetUpAct[]) {
    const inside = new Set(
      offer.needs.access.flatMap((id) => accessChain(id, this.#board.groups).map((group) => group.id)),
    );
    const dead = offer.needs.energy === "plug out" || offer.needs.energy === "clipped";
    const stored = dead ? storedEnergy(this.#scene.machine, inside, offer.touchesPlug === true) : [];
    return {
      id: offer.id,
      do: offer.do,
      says: offer.says,
      energy: offer.needs.energy,
      setUp,
      cautions: cautionsFor(
        offer.cautions,
        offer.sheetCautions,
        setUp,
        stored.map((one) => one.store),
      ),
      stored,
    };
  }

  #authority(cost: number): { readonly overAuthority?: true } {
    const { options, state, shop } = this.#scene;
    if (options.authority === undefined) return {};
    const soFar = shop.callOut + priceOf(state.minutes, shop) + state.spent;
    return soFar + cost > options.authority ? { overAuthority: true } : {};
  }
}

/** It may well show something else than what it shows most often. */
function isInDoubt({ cells }: Valued): boolean {
  return cells.every(({ chance }) => chance < 1 - TURNS);
}

/** Asked, or watched while it runs: it finds no fault by itself. */
function isSmall({ offer }: Valued): boolean {
  return offer.do === "ask" || offer.do === "slot" || offer.do === "see";
}

function byCost(a: Valued, b: Valued): number {
  return a.expectedCost - b.expectedCost || (a.offer.id < b.offer.id ? -1 : 1);
}

/** Money that a step must earn beyond its own cost to be named. */
export function demanded(valued: Valued): number {
  return valued.offer.do === "ask" || valued.offer.do === "slot" ? PATIENCE * valued.cost : 0;
}

/** Questions as the hands meet them: the order of the place, not of their worth; with a wire off last. */
function inHandOrder(offer: Offer, valued: Valued): number[] {
  const order = valued.taken.map((_, n) => n);
  const place = (n: number): number => offer.questions.indexOf(valued.taken[n] as Valued["taken"][number]);
  const isFreed = (n: number): boolean => {
    const state = valued.taken[n]?.probe?.state;
    return state?.kind === "dead" && state.freed.length > 0;
  };
  return order.sort((a, b) => Number(isFreed(a)) - Number(isFreed(b)) || place(a) - place(b));
}

/** The set-up with the instrument that is really read first. */
function inHandFirst(valued: Valued, order: readonly number[]): readonly SetUpAct[] {
  const first = order.map((n) => valued.taken[n]).find((question) => question?.meter !== undefined);
  const { meter, probe } = first ?? {};
  if (meter === undefined || probe === undefined) return valued.setUp.acts;
  return valued.setUp.acts.map((act) =>
    act.do === "take" ? { ...act, instrument: instrumentWords(meter, probe.quantity) } : act,
  );
}
