import type { Mode } from "../fault/index.ts";
import { type Course, cureOf, idTogether, priceOf, type Shop } from "../remedy/index.ts";
import type { Hypothesis } from "../suspect/index.ts";
import { type Board, lossOf, placeOf } from "./ground.ts";
import type { Act } from "./leaf-value.ts";
import type { Energy } from "./plan.ts";
import { accessChain, readyCost, type SetUp, setUpFor } from "./set-up.ts";
import type { WorkState } from "./work-state.ts";

/** A remedy with less hope than this is not named. */
const LEAST_HOPE = 0.03;
/** A new part is not fitted on the chance where it is as likely to be for nothing (common practice, no source). */
export const LIKELIER_THAN_NOT = 0.5;
/** Two faults are mended in one go from this weight. */
const TOGETHER = 0.05;
/** Most remedies named. */
const MOST_REPAIRS = 8;

/** One or two courses done in one go, and the faults they are meant for. */
interface Plan {
  readonly courses: readonly Course[];
  readonly access: ReadonlySet<string>;
  /** Only the use of the machine is wrong: nothing is opened. */
  readonly use: boolean;
  /** Something new is fitted, more than a joint remade. */
  readonly newPart: boolean;
  hope: number;
}

/**
 * Every remedy worth naming, as something done on the chance. A cause and its victim are also offered together.
 *
 * @param partsFrom  odds from which a new part is named
 */
export function repairsOf(board: Board, state: WorkState, shop: Shop, partsFrom = LIKELIER_THAN_NOT): Repairable[] {
  const plans = [...plansOf(board, shop)]
    .filter(([, plan]) => plan.hope >= leastHope(plan, partsFrom))
    .sort((a, b) => b[1].hope - a[1].hope || (a[0] < b[0] ? -1 : 1))
    .slice(0, MOST_REPAIRS);
  return plans.flatMap(([, plan]) => repairable(board, state, shop, plan) ?? []);
}

function leastHope({ courses, newPart }: Plan, partsFrom: number): number {
  if (newPart) return partsFrom;
  return courses.length > 1 ? TOGETHER : LEAST_HOPE;
}

function plansOf(board: Board, shop: Shop): Map<string, Plan> {
  const plans = new Map<string, Plan>();
  const hopeFor = (courses: readonly Course[], modes: readonly Mode[], i: number, hope: number): void => {
    const key = idTogether(courses);
    const machine = board.machineOf(i);
    const access = modes.map((mode) => placeOf(mode, machine).access).filter((id) => id !== undefined);
    const use = modes.every((mode) => machine.causes[mode.cause]?.group === "use");
    const known = plans.get(key);
    // The dearer telling of the same course wins: a victim that comes back.
    const dearer = known === undefined || courses.some((course, n) => course.back > (known.courses[n]?.back ?? 0));
    const newPart = courses.some((course) => course.price > 0 && course.remakes !== true);
    if (known === undefined) plans.set(key, { courses, access: new Set(access), use, newPart, hope });
    else plans.set(key, { ...known, courses: dearer ? courses : known.courses, hope: known.hope + hope });
  };
  board.live.hypotheses.forEach((h, i) => {
    const hypothesis = board.case.hypotheses[h] as Hypothesis;
    const w = board.live.weights[i] as number;
    const machine = board.machineOf(i);
    for (const mode of hypothesis.modes) {
      for (const course of board.courses(hypothesis, mode)) {
        hopeFor([course], [mode], i, w / hypothesis.modes.length);
      }
    }
    if (hypothesis.modes.length < 2) return;
    // Cause before victim, as one works.
    const order = [...hypothesis.modes].sort((a, b) => Number(a.victim) - Number(b.victim) || (a.id < b.id ? -1 : 1));
    const firsts = order.map(
      (mode) =>
        cureOf(board.courses(hypothesis, mode), lossOf(mode, machine, board.ground.stop, shop), board.tryCost)
          .courses[0],
    );
    const courses = firsts.filter((course) => course !== undefined);
    if (courses.length === order.length && new Set(courses.map((course) => course.id)).size === courses.length) {
      hopeFor(courses, order, i, w);
    }
  });
  return plans;
}

/** A remedy as it would be done now, before anybody has asked what it is worth. */
export interface Repairable {
  readonly course: Course;
  readonly setUp: SetUp;
  readonly access: readonly string[];
  readonly energy: Energy;
  readonly act: Act;
  /** Chance that the job is mended by it. */
  readonly mends: number;
  /** Something new is fitted, and these are the odds that it is for something; undefined where nothing is fitted. */
  readonly partOdds: number | undefined;
}

function repairable(board: Board, state: WorkState, shop: Shop, plan: Plan): Repairable | undefined {
  const energy: Energy = plan.use ? "any" : "plug out";
  const access = plan.use ? [] : [...plan.access];
  const setUp = setUpFor({ energy, access, pulled: [] }, state, board.groups, shop);
  if (setUp === undefined) return undefined;
  const course = together(plan.courses);
  const ids = new Set(plan.courses.map((one) => one.id));
  const size = board.live.weights.length;
  const needed = new Float64Array(size);
  const stays = new Float64Array(size).fill(1);
  const cure = Float64Array.from(board.ground.cure);
  const taken = new Float64Array(size);
  let mends = 0;
  board.live.hypotheses.forEach((h, i) => {
    const hypothesis = board.case.hypotheses[h] as Hypothesis;
    const rest = hypothesis.modes.map((mode) => {
      const all = board.courses(hypothesis, mode);
      const done = all.find((one) => ids.has(one.id));
      const loss = lossOf(mode, board.machineOf(i), board.ground.stop, shop);
      if (done === undefined) return { done, cost: 0, whole: 0 };
      const others = all.filter((one) => !ids.has(one.id));
      return {
        done,
        cost: cureOf(others, loss, board.tryCost).cost,
        whole: cureOf(all, loss, board.tryCost).cost,
      };
    });
    if (rest.length === 0 || rest.every((one) => one.done === undefined)) return;
    needed[i] = 1;
    if (rest.every((one) => one.done !== undefined)) {
      const cured = rest.reduce((product, one) => product * (one.done?.cured ?? 0), 1);
      mends += (board.live.weights[i] as number) * cured;
      stays[i] = 1 - cured;
      // What failed once is not tried again.
      cure[i] = rest.reduce((sum, one) => sum + one.cost, 0);
    } else {
      // One of two faults goes; its share of the bill goes with it.
      taken[i] = rest.reduce((sum, one) => sum + (one.done === undefined ? 0 : one.done.cured * one.whole), 0);
    }
  });
  const groups = new Set(
    access.flatMap((id) => accessChain(id, board.groups).map((group) => board.groupIndex.get(group.id) ?? 0)),
  );
  const act: Act = {
    cost: priceOf(setUp.minutes + setUp.closeMinutes, shop) + course.cost + board.tryCost,
    ready: readyCost(setUp, shop),
    groups: [...groups],
    forNothing: course.price > 0 ? shop.wrongPart : 0,
    needed,
    stays,
    cure,
    taken,
  };
  return { course, setUp, access, energy, act, mends, partOdds: plan.newPart ? plan.hope : undefined };
}

/** Several courses told as one. */
function together(courses: readonly Course[]): Course {
  const [first] = courses;
  if (first === undefined) throw new RangeError("together: no course");
  if (courses.length === 1) return first;
  const sum = (of: (course: Course) => number): number => courses.reduce((total, course) => total + of(course), 0);
  const all = (of: (course: Course) => number): number => courses.reduce((product, course) => product * of(course), 1);
  const asksWhy = courses.find((course) => course.asksWhy !== undefined)?.asksWhy;
  const { remakes, ...one } = first;
  return {
    ...one,
    ...(remakes && courses.every((course) => course.remakes) ? { remakes } : {}),
    id: idTogether(courses),
    says: courses.map((course) => course.says).join("; "),
    minutes: sum((course) => course.minutes),
    price: sum((course) => course.price),
    fetched: courses.some((course) => course.fetched),
    cured: all((course) => course.cured),
    back: 1 - all((course) => 1 - course.back),
    steps: courses.flatMap((course) => course.steps),
    assembly: courses.some((course) => course.assembly),
    cost: sum((course) => course.cost),
    ...(asksWhy === undefined ? {} : { asksWhy }),
  };
}
