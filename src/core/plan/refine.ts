import type { Shop } from "../remedy/index.ts";
import { weighFirst } from "../search/index.ts";
import { asTable } from "./as-table.ts";
import type { Board } from "./ground.ts";
import type { Lookahead } from "./lookahead.ts";
import type { Plan, PlanStep } from "./plan.ts";
import type { Repairable } from "./repairs.ts";
import { readyCost } from "./set-up.ts";
import { demanded, type StepMaker } from "./step-maker.ts";
import type { Surveyed } from "./survey.ts";
import type { Glance, Valued } from "./valued.ts";

/** Places whose batches are worked out for the search, the most hopeful. */
const BATCHES = 30;
/** Another step is told instead of the quick one when it saves more than this share: less is within what a table leaves out. */
const MATTERS = 0.01;

/** What the quick plan was made from. */
export interface Ground {
  readonly board: Board;
  readonly lookahead: Lookahead;
  readonly maker: StepMaker;
  readonly surveyed: readonly Surveyed[];
  readonly repairs: readonly Repairable[];
  readonly shop: Shop;
}

/**
 * The plan with its first step held against every other by a search to the end, with a proven bound. The choice is laid out
 * as a plain table first, so the bound is one for the table: a garbled telling of the case, in which a place is gone to once.
 *
 * @param work  states looked into, and as many again to do justice to the quick step
 * @returns     the plan as it was where its first step is no choice (a question that must be answered, a proof)
 */
export function refine(plan: Plan, ground: Ground, work: number): Plan {
  const [quick] = plan.steps;
  const { board, lookahead, maker, surveyed, repairs, shop } = ground;
  if (quick === undefined) return plan;
  const choice = {
    board,
    repairs,
    first: quick.id,
    valued: batches(lookahead, surveyed).filter((valued) => mayBeTold(valued, plan.steps)),
    readyOf: (valued: Valued) => readyCost(valued.setUp, shop),
    demandOf: demanded,
  };
  const told = asTable(choice);
  const first = told.firstOf(quick);
  if (first === undefined) return plan;
  const weighed = weighFirst(told.table, work, first);
  const best = told.stepOf(weighed.first);
  const { expectedCost, lowerBound, exact } = weighed;
  const other = weighed.other ?? { expectedCost, lowerBound };
  const saves = other.expectedCost - expectedCost;
  const better =
    best === undefined || best.id === quick.id || saves <= MATTERS * expectedCost
      ? undefined
      : (plan.steps.find(({ id }) => id === best.id) ??
        (best.valued === undefined ? undefined : maker.tell(best.valued)));
  const isHeld = better?.waitsForWhy !== undefined;
  return {
    ...plan,
    steps:
      better === undefined || isHeld ? plan.steps : [better, ...plan.steps.filter((step) => step.id !== better.id)],
    refined: {
      step: better?.id ?? quick.id,
      expectedCost,
      lowerBound,
      exact,
      quick: { step: quick.id, ...other },
      differs: better !== undefined,
      causes: told.table.causes.length,
      tests: told.table.tests.length,
      remedies: told.table.remedies.length,
      leftOut: told.leftOut,
      work: Math.round(weighed.work),
    },
  };
}

function batches(lookahead: Lookahead, surveyed: readonly Surveyed[]): Valued[] {
  return surveyed
    .map((one) => lookahead.glance(one))
    .filter((glance): glance is Glance => glance !== undefined)
    .sort((a, b) => a.hope - b.hope || (a.offer.id < b.offer.id ? -1 : 1))
    .slice(0, BATCHES)
    .map((glance) => lookahead.batch(glance));
}

/** A live step is searched only where the plan tells it too: it must have beaten every dead one by the shop's margin. */
function mayBeTold({ offer }: Valued, steps: readonly PlanStep[]): boolean {
  const isLive = offer.needs.energy === "clipped" || offer.needs.energy === "handheld";
  return !isLive || steps.some(({ id }) => id === offer.id);
}
