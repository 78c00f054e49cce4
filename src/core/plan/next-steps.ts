import { type Pieces, toItsEnd } from "../pace/index.ts";
import { type Shop, stopCost } from "../remedy/index.ts";
import type { Belief } from "../suspect/index.ts";
import { BasePolicy } from "./base-policy.ts";
import { Checks } from "./checks.ts";
import { type Board, layOut, type PlanCase } from "./ground.ts";
import { inPlay } from "./in-play.ts";
import { readBefore, runsUnread } from "./insulation.ts";
import { Knowing } from "./knowing.ts";
import { Lookahead } from "./lookahead.ts";
import type { Offer } from "./offer.ts";
import { deadOffers } from "./offer-dead.ts";
import { liveOffers } from "./offer-live.ts";
import { lookOffers, measureOffers } from "./offer-looks.ts";
import { questionOffers, slotOffers, watchOffer } from "./offer-questions.ts";
import type { Plan, PlanOptions, PlanStep } from "./plan.ts";
import { refine } from "./refine.ts";
import { LIKELIER_THAN_NOT, type Repairable, repairsOf } from "./repairs.ts";
import { type Scene, sceneOf } from "./scene.ts";
import { StepMaker, TALK } from "./step-maker.ts";
import { survey } from "./survey.ts";
import { unansweredProtectors, whyLooks } from "./why-open.ts";
import type { WorkState } from "./work-state.ts";

/** Outcome tables looked at for one plan; on a dryer some 200 are there to ask. */
const TABLES = 260;
/** Hypotheses that are looked at, and how much of the belief they should hold. */
const HYPOTHESES = 80;
const MASS = 0.99;
/** Odds from which something is known to be broken. */
const KNOWN_BROKEN = 0.9;
/** Odds from which a new part is fitted though something else could still be read (our own choice, held against simulated jobs). */
const WELL_LIKELIER = 0.75;
/** Steps that find nothing by themselves. */
const NO_FINDING: ReadonlySet<PlanStep["do"]> = new Set(["stop", "ask", "slot"]);
/** Steps that are told in full. */
const MOST_STEPS = 12;

/**
 * The next step: everything that could be done now, by expected cost to a verified repair or an honest stop, best first.
 *
 * One or two steps ahead, then a base policy that tests one thing after the other, or the price of knowing where that is
 * less; a place is valued as a batch. With `refineWork` the first steps are then held against one another by a search to
 * the end (`refine`).
 *
 * @param the      hypotheses with what each would show
 * @param belief   what is believed now
 * @param state    where the work stands
 * @returns        ranked steps with their reasons; deterministic, its work counted in `Plan.work`
 * @source         Heckerman, Breese & Rommelse 1995 (from memory)
 */
export function nextSteps(the: PlanCase, belief: Belief, state: WorkState, shop: Shop, options: PlanOptions): Plan {
  return toItsEnd(findingSteps(the, belief, state, shop, options));
}

/** The same in pieces, for a caller that has something else to do between them. */
export function* findingSteps(
  the: PlanCase,
  belief: Belief,
  state: WorkState,
  shop: Shop,
  options: PlanOptions,
): Pieces<Plan> {
  const { plan, fitsOnTheChance } = yield* planning(the, belief, state, shop, options, LIKELIER_THAN_NOT);
  if (!fitsOnTheChance) return plan;
  // What can be looked at or read, or costs no part, goes before a part that is only likelier than not: it may be dearer by
  // what a part fitted for nothing loses. Where there is nothing of the kind, the part is fitted.
  const { plan: surer } = yield* planning(the, belief, state, shop, options, WELL_LIKELIER);
  const [chancy, other] = [firstOf(plan), firstOf(surer)];
  if (chancy === undefined || other === undefined || NO_FINDING.has(other.do)) return plan;
  return other.expectedCost < chancy.expectedCost + shop.wrongPart ? surer : plan;
}

/** The step to take, whatever is said to the customer meanwhile. */
function firstOf({ steps }: Plan): PlanStep | undefined {
  return steps.find((step) => step.do !== "talk");
}

/** @param partsFrom  odds from which a new part may be fitted */
function* planning(
  the: PlanCase,
  belief: Belief,
  state: WorkState,
  shop: Shop,
  options: PlanOptions,
  partsFrom: number,
): Pieces<{ readonly plan: Plan; readonly fitsOnTheChance: boolean }> {
  const onSite = options.where !== "telephone";
  const stop = stopCost(shop, options.ageYears, options.replacementPrice);
  const live = inPlay(the.hypotheses, belief, options.atMost ?? HYPOTHESES, MASS);
  const outline = layOut(the, live, state, shop, stop);
  const scene = sceneOf(outline, state, shop, options);
  const seen = yield* survey(outline, offersFor(scene), state, shop, mostToSave(outline), options.tables ?? TABLES);

  const checks = new Checks(outline, seen.surveyed, shop);
  const board = { ...outline, ground: { ...outline.ground, targets: checks.without() } };
  const policy = new BasePolicy(board.ground);
  const remedies = onSite ? repairsOf(board, state, shop, partsFrom) : [];
  const lookahead = new Lookahead(
    board,
    policy,
    checks,
    new Knowing(outline, seen.surveyed, shop),
    shop,
    remedies.map((remedy) => remedy.act),
  );
  const { blind } = lookahead;
  const maker = new StepMaker({ ...scene, board }, lookahead, remedies);
  const { steps: told, lead } = maker.informing(seen.surveyed);
  const unanswered = unansweredProtectors(scene);
  const repairs = remedies.map((remedy, n) => maker.repair(remedy, lookahead.tried[n] ?? stop, unanswered));
  const whys = onSite ? whyLooks(scene, unanswered, shop).map((look) => maker.why(look)) : [];
  // What is said to work is proved and closed; nobody wants small questions any more.
  const works = state.repairs.at(-1)?.worked === true;
  const search = works ? [] : keepLive(told, blind, shop);
  const ranked = rank([...search, ...repairs, ...whys, maker.stop(stop)], state, lead);
  const before = (repair: PlanStep): PlanStep | undefined => {
    const owed = repair.course === undefined ? undefined : readBefore(scene, repair.course);
    if (owed === undefined || state.cannot.has(owed.id)) return undefined;
    // It is owed whatever it saves.
    const [one] = toItsEnd(survey(outline, [owed], state, shop, Number.POSITIVE_INFINITY, TABLES)).surveyed;
    return one === undefined ? undefined : maker.owed(one, repair);
  };
  const first = stillToMend(remedies, repairs, board, state);
  const proof = [...unreadFirst(first === undefined ? [] : [first], before), ...maker.verify()];
  const steps = unreadFirst(ranked, before).filter(({ id }) => proof.every((one) => one.id !== id));
  // Once something was mended an answer has been found: what follows is proof, not search.
  const isFound = state.repairs.length > 0;
  const timeIsUp = state.minutes >= shop.timeStopMinutes && !isFound && !state.cannot.has(TALK);
  const plan: Plan = {
    steps: [...proof, ...(timeIsUp ? [maker.talk(stop)] : []), ...steps].slice(0, MOST_STEPS),
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
  const step = firstOf(plan);
  const odds = remedies.find((_, n) => repairs[n]?.id === step?.id)?.partOdds ?? 1;
  const fitsOnTheChance = odds < WELL_LIKELIER;
  if (options.refineWork === undefined) return { plan, fitsOnTheChance };
  const refined = refine(
    plan,
    { board, lookahead, maker, surveyed: seen.surveyed, repairs: remedies, shop },
    options.refineWork,
  );
  return { plan: { ...refined, steps: refined.steps.slice(0, MOST_STEPS) }, fitsOnTheChance };
}

/** Protectors that opened for a reason nobody knows yet (`Plan.unanswered`), without the search for a next step. */
export function unansweredOf(
  the: PlanCase,
  belief: Belief,
  state: WorkState,
  shop: Shop,
  options: PlanOptions,
): Plan["unanswered"] {
  const live = inPlay(the.hypotheses, belief, options.atMost ?? HYPOTHESES, MASS);
  const outline = layOut(the, live, state, shop, stopCost(shop, options.ageYears, options.replacementPrice));
  return unansweredProtectors(sceneOf(outline, state, shop, options));
}

/**
 * After a repair: what is known to be broken as well is mended before anything is tried (the cause, then its victim), where
 * mending it is the best that can be done: a whole board is not fitted because one of its two joints is known to be off.
 */
function stillToMend(
  remedies: readonly Repairable[],
  steps: readonly PlanStep[],
  { live }: Board,
  { repairs, cannot }: WorkState,
): PlanStep | undefined {
  const last = repairs.at(-1);
  if (last === undefined || last.looked) return undefined;
  const [step] = [...steps].sort((a, b) => a.expectedCost - b.expectedCost);
  if (step === undefined || step.waitsForWhy !== undefined || cannot.has(step.id)) return undefined;
  const act = remedies[steps.indexOf(step)]?.act;
  const known = live.weights.reduce(
    (sum, w, i) => sum + (act === undefined || (act.stays[i] === 1 && act.taken[i] === 0) ? 0 : w),
    0,
  );
  return known >= KNOWN_BROKEN ? step : undefined;
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
  return offers.filter((offer) => !scene.state.cannot.has(offer.id) && !runsUnread(scene, offer));
}

/** The same steps, with what must be read before a part is bought just before it. */
function unreadFirst(steps: readonly PlanStep[], before: (repair: PlanStep) => PlanStep | undefined): PlanStep[] {
  const told: PlanStep[] = [];
  for (const step of steps) {
    const reading = before(step);
    if (reading !== undefined && !told.some(({ id }) => id === reading.id)) told.push(reading);
    if (!told.some(({ id }) => id === step.id)) told.push(step);
  }
  return told;
}

/** Live steps stay only where they beat every dead one, and going on without, by the shop's margin. */
function keepLive(steps: readonly PlanStep[], without: number, shop: Shop): PlanStep[] {
  const isLive = (step: PlanStep): boolean => step.energy === "clipped" || step.energy === "handheld";
  const bestDead = Math.min(without, ...steps.filter((step) => !isLive(step)).map((step) => step.expectedCost));
  return steps.filter((step) => !isLive(step) || step.expectedCost + shop.liveMargin < bestDead);
}

/**
 * Cheapest to the end first; no repair of a protector before it was asked why it opened; ties by id. The lead is as good
 * as the best of those that look for the fault or mend it, and stands before them.
 */
function rank(steps: readonly PlanStep[], state: WorkState, lead: string | undefined): PlanStep[] {
  const possible = steps.filter((step) => !state.cannot.has(step.id));
  const best = Math.min(...possible.filter((step) => step.do !== "why").map((step) => step.expectedCost));
  const key = (step: PlanStep): number => (step.id === lead ? best : step.expectedCost);
  const cheapest = possible.sort(
    (a, b) =>
      Math.round((key(a) - key(b)) * 1e6) ||
      Number(b.id === lead) - Number(a.id === lead) ||
      (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
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
