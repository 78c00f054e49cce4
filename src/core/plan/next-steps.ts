import { priceOf, type Shop, stopCost } from "../remedy/index.ts";
import type { Belief } from "../suspect/index.ts";
import { BasePolicy } from "./base-policy.ts";
import { type Caution, type CautionCode, caution, sheetCaution } from "./cautions.ts";
import { Checks } from "./checks.ts";
import { type Board, layOut, liveOf, type PlanCase } from "./ground.ts";
import { Lookahead, type Valued } from "./lookahead.ts";
import type { Offer } from "./offer.ts";
import { deadOffers } from "./offer-dead.ts";
import { liveOffers } from "./offer-live.ts";
import { lookOffers, measureOffers } from "./offer-looks.ts";
import { questionOffers, slotOffers, watchOffer } from "./offer-questions.ts";
import type { Plan, PlanOptions, PlanStep, Unanswered } from "./plan.ts";
import { outcomesOf, questionOf, settles } from "./reasons.ts";
import { type Repairable, repairsOf } from "./repairs.ts";
import { type Scene, sceneOf } from "./scene.ts";
import { accessChain, type SetUpAct } from "./set-up.ts";
import { storedEnergy } from "./stored-energy.ts";
import { type Surveyed, survey } from "./survey.ts";
import { unansweredProtectors, type WhyLook, whyLooks } from "./why-open.ts";
import type { WorkState } from "./work-state.ts";

/** Outcome tables looked at for one plan; on a dryer some 200 are there to ask. */
const TABLES = 260;
/** Hypotheses that are looked at, and how much of the belief they should hold. */
const HYPOTHESES = 150;
const MASS = 0.99;
/** Places whose batches are worked out; all others are told by their best single question. */
const BATCHES = 6;
/**
 * Share of its cost that the best step may fail to earn when no step earns all of it: the base policy tests as if it
 * could not err, and real steps can.
 */
const FORGIVEN = 0.25;
/** What a question must earn beyond its cost, in its costs: people tire of being asked (from memory, no source). */
const PATIENCE = 1.5;
/** Expected costs nearer than this are equal: the worst error of one step ahead, measured on 10 to 20 causes. */
const NEARLY = 0.11;
/** A step is worth going to by itself when it earns this many times its cost. */
const WORTHWHILE = 3;
/** Steps that are valued two ahead. */
const TWO_AHEAD = 8;
/** Steps that are told in full. */
const MOST_STEPS = 12;

/**
 * The next step: everything that could be done now, by expected cost to a verified repair or an honest stop, best first.
 *
 * One step ahead over a base policy that tests one thing after the other; a place is valued as a batch. (Planning
 * further ahead, with a proven bound, will stand beside this and give the same `Plan`.)
 *
 * @param the      hypotheses with what each would show
 * @param belief   what is believed now
 * @param state    where the work stands
 * @returns        ranked steps with their reasons; deterministic, its work counted in `Plan.work`
 * @source         Heckerman, Breese & Rommelse 1995 (from memory)
 */
export function nextSteps(the: PlanCase, belief: Belief, state: WorkState, shop: Shop, options: PlanOptions): Plan {
  const onSite = options.where !== "telephone";
  const stop = stopCost(shop, options.ageYears, options.replacementPrice);
  const live = liveOf(belief, options.atMost ?? HYPOTHESES, MASS);
  const outline = layOut(the, live, state, shop, stop);
  const scene = sceneOf(outline, state, shop, options);
  const seen = survey(outline, offersFor(scene), state, shop, mostToSave(outline), options.tables ?? TABLES);

  const checks = new Checks(outline, seen.surveyed, shop);
  const board = { ...outline, ground: { ...outline.ground, targets: checks.without("") } };
  const policy = new BasePolicy(board.ground);
  const remedies = onSite ? repairsOf(board, state, shop) : [];
  const lookahead = new Lookahead(
    board,
    policy,
    checks,
    shop,
    remedies.map((remedy) => remedy.act),
  );
  const { blind } = lookahead;
  const maker = new StepMaker({ ...scene, board }, lookahead, blind);
  const told = maker.informing(seen.surveyed);
  const unanswered = unansweredProtectors(scene);
  const repairs = remedies.map((remedy, n) => maker.repair(remedy, lookahead.tried[n] ?? stop, unanswered));
  const whys = onSite ? whyLooks(scene, unanswered, shop).map((look) => maker.why(look)) : [];
  const steps = rank([...keepLive(told, blind, shop), ...repairs, ...whys, maker.stop(stop)], state);
  // Once something was mended an answer has been found: what follows is proof, not search.
  const timeIsUp = state.minutes >= shop.timeStopMinutes && state.repairs.length === 0;
  return {
    steps: [...maker.verify(), ...(timeIsUp ? [maker.talk(stop)] : []), ...steps].slice(0, MOST_STEPS),
    base: lookahead.base,
    blind,
    least: policy.least(live.weights),
    stopCost: stop,
    energy: state.energy,
    provedDead: state.provedDead,
    minutes: state.minutes,
    timeIsUp,
    unanswered,
    mayClose: unanswered.length === 0 && state.repairs.every((repair) => repair.looked),
    work: { tables: seen.tables, evaluations: policy.evaluations, complete: seen.complete },
  };
}

/** The most that knowledge could save: what guessing with no test at all would cost, less what nothing can save. */
function mostToSave(board: Board): number {
  const blind = board.ground.targets.map((target) =>
    target.endless ? target : { ...target, check: Number.POSITIVE_INFINITY },
  );
  const guess = new BasePolicy({ ...board.ground, targets: blind });
  return Math.max(0, guess.cost(board.live.weights, board.open) - guess.least(board.live.weights));
}

function offersFor(scene: Scene): Offer[] {
  const asked = questionOffers(scene);
  const offers =
    scene.options.where === "telephone"
      ? asked
      : [
          ...asked,
          ...slotOffers(scene),
          ...lookOffers(scene),
          ...watchOffer(scene),
          ...measureOffers(scene),
          ...deadOffers(scene),
          ...liveOffers(scene),
        ];
  return offers.filter((offer) => !scene.state.cannot.has(offer.id));
}

/** Live steps stay only where they beat every dead one, and going on without, by the shop's margin. */
function keepLive(steps: readonly PlanStep[], without: number, shop: Shop): PlanStep[] {
  const isLive = (step: PlanStep): boolean => step.energy === "clipped" || step.energy === "handheld";
  const bestDead = Math.min(without, ...steps.filter((step) => !isLive(step)).map((step) => step.expectedCost));
  return steps.filter((step) => !isLive(step) || step.expectedCost + shop.liveMargin < bestDead);
}

/** Cheapest to the end first; no repair of a protector before it was asked why it opened; ties by id. */
function rank(steps: readonly PlanStep[], state: WorkState): PlanStep[] {
  const possible = steps.filter((step) => !state.cannot.has(step.id));
  const cheapest = possible.sort(
    (a, b) => Math.round((a.expectedCost - b.expectedCost) * 1e6) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
  );
  const held = cheapest.filter((step) => step.waitsForWhy !== undefined);
  if (held.length === 0 || !cheapest.some((step) => step.do === "why")) return cheapest;
  const rest = cheapest.filter((step) => step.waitsForWhy === undefined);
  const lastWhy = Math.max(...rest.map((step, n) => (step.do === "why" ? n : -1)));
  const firstHeld = cheapest.findIndex((step) => step.waitsForWhy !== undefined);
  // Whys that stood below the repair come up to just before it.
  const before = rest.filter((step, n) => cheapest.indexOf(step) < firstHeld || (step.do === "why" && n <= lastWhy));
  return [...before, ...held, ...rest.filter((step) => !before.includes(step))];
}

/** Turns valued offers into steps that explain themselves. */
class StepMaker {
  readonly #scene: Scene;
  readonly #board: Board;
  readonly #lookahead: Lookahead;

  /** Money of the best that can be done without any test. */
  readonly #blind: number;

  constructor(scene: Scene, lookahead: Lookahead, blind: number) {
    this.#blind = blind;
    this.#scene = scene;
    this.#board = scene.board;
    this.#lookahead = lookahead;
  }

  /** Steps that only tell something, each worth what it costs. */
  informing(surveyed: readonly Surveyed[]): PlanStep[] {
    const glances = surveyed.map((one) => this.#lookahead.glance(one)).filter((glance) => glance !== undefined);
    const hopeful = [...glances]
      .sort((a, b) => a.hope - b.hope || (a.offer.id < b.offer.id ? -1 : 1))
      .slice(0, BATCHES);
    const valued = glances.map((glance) => (hopeful.includes(glance) ? this.#lookahead.batch(glance) : glance));
    const ranked = valued.filter((one) => one.expectedCost < this.#blind).sort(byCost);
    const paying = ranked.filter((one) => one.without - one.expectedCost > demanded(one));
    const told =
      paying.length > 0
        ? shortFirst(this.#lookahead.twoAhead(paying.slice(0, TWO_AHEAD)).sort(byCost))
        : ranked.filter((one) => one.without - one.expectedCost > -FORGIVEN * one.cost).slice(0, 1);
    return told.map((one) => this.#informing(one));
  }

  #informing(valued: Valued): PlanStep {
    const { offer } = valued;
    const order = inHandOrder(offer, valued);
    return {
      ...this.#frame(offer, valued.setUp.acts),
      minutes: valued.minutes,
      cost: valued.cost,
      expectedCost: valued.expectedCost,
      worth: this.#blind - valued.expectedCost,
      settles: settles(this.#board, valued),
      questions: order.map((n) =>
        questionOf(this.#board, valued.taken[n] as Valued["taken"][number], valued.tables[n]),
      ),
      outcomes: outcomesOf(this.#board, this.#lookahead.policyAfter(offer), valued, order),
      ...this.#authority(valued.cost),
    };
  }

  repair(repair: Repairable, expectedCost: number, unanswered: readonly Unanswered[]): PlanStep {
    const { course } = repair;
    const waits = unanswered.find((one) => one.protector === course.asksWhy || course.id.includes(`${one.protector}/`));
    const needs = { energy: repair.energy, access: repair.access, pulled: [] };
    const hazards = this.#scene.suspects.find((one) => one.id === course.on)?.hazards ?? [];
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
      settles: "mends it, or shows that it was something else",
      questions: [],
      outcomes: [],
      course: { ...course, mends: repair.mends },
      ...(waits === undefined ? {} : { waitsForWhy: waits.protector }),
      ...this.#authority(repair.act.cost),
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
      id: "talk",
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
        offer,
        setUp,
        stored.map((one) => one.farads),
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

/**
 * Of the steps that come to nearly the same as the best one, and are worth going to by themselves, the least costly goes
 * first: looks and questions before covers.
 */
function shortFirst(sorted: readonly Valued[]): Valued[] {
  const [best] = sorted;
  if (best === undefined) return [];
  const [shortest] = sorted
    .filter(
      (one) =>
        one.offer.do !== "ask" &&
        one.offer.do !== "slot" &&
        one.expectedCost <= best.expectedCost * (1 + NEARLY) &&
        one.without - one.alone > WORTHWHILE * one.cost,
    )
    .sort((a, b) => a.cost - b.cost);
  if (shortest === undefined || shortest.cost >= best.cost) return [...sorted];
  // It takes over the figure of the best: they are as good as equal.
  return [{ ...shortest, expectedCost: best.expectedCost - 1e-6 }, ...sorted.filter((one) => one !== shortest)];
}

function byCost(a: Valued, b: Valued): number {
  return a.expectedCost - b.expectedCost || (a.offer.id < b.offer.id ? -1 : 1);
}

/** Money that a step must earn beyond its own cost to be named. */
function demanded(valued: Valued): number {
  return valued.offer.do === "ask" || valued.offer.do === "slot" ? PATIENCE * valued.cost : 0;
}

/** Questions as the hands meet them: the order of the place, not of their worth. */
function inHandOrder(offer: Offer, valued: Valued): number[] {
  const order = valued.taken.map((_, n) => n);
  const place = (n: number): number => offer.questions.indexOf(valued.taken[n] as Valued["taken"][number]);
  return order.sort((a, b) => place(a) - place(b));
}

function cautionsFor(offer: Offer, setUp: readonly SetUpAct[], farads: readonly number[]): Caution[] {
  const codes = new Set<CautionCode>(offer.cautions);
  const doing = new Set(setUp.map((act) => act.do));
  if (doing.has("prove dead")) codes.add("prove-dead");
  if (doing.has("plug out")) codes.add("isolate");
  if (setUp.some((act) => act.do === "open" && act.needs.length > 0)) codes.add("moving");
  if (farads.some((value) => value >= 0.9e-6)) codes.add("run-capacitor");
  if (farads.some((value) => value < 0.9e-6)) codes.add("filter-capacitor");
  return [...[...codes].map(caution), ...[...new Set(offer.sheetCautions)].map(sheetCaution)];
}
