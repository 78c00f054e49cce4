import { type Course, cureOf, priceOf, type Shop } from "../remedy/index.ts";
import type { Hypothesis } from "../suspect/index.ts";
import type { BasePolicy } from "./base-policy.ts";
import { type Board, placeOf } from "./ground.ts";
import { accessChain, type SetUp, setUpFor } from "./set-up.ts";
import type { WorkState } from "./work-state.ts";

/** A remedy with less hope than this is not named. */
const LEAST_HOPE = 0.03;
/** Most remedies named. */
const MOST_REPAIRS = 8;

/** A remedy with what it is worth to try it now. */
export interface ValuedRepair {
  readonly course: Course;
  readonly setUp: SetUp;
  readonly access: readonly string[];
  readonly cost: number;
  readonly expectedCost: number;
  /** Chance that the job is mended by it. */
  readonly mends: number;
  /** Chance that what it is meant for is the fault. */
  readonly meant: number;
}

/**
 * Every remedy worth naming, as something done on the chance: its cost, and the base policy's where it fails.
 * A remedy that mends one of two faults takes that fault's share of the bill away.
 */
export function valueRepairs(board: Board, policy: BasePolicy, state: WorkState, shop: Shop): ValuedRepair[] {
  const covers = new Map<
    string,
    { course: Course; access: string | undefined; full: number[]; part: [number, number][] }
  >();
  const hope = new Map<string, number>();
  board.live.hypotheses.forEach((h, i) => {
    const hypothesis = board.case.hypotheses[h] as Hypothesis;
    const w = board.live.weights[i] as number;
    for (const mode of hypothesis.modes) {
      for (const course of board.courses(hypothesis, mode)) {
        const known = covers.get(course.id) ?? {
          course,
          access: placeOf(mode, board.machineOf(i)).access,
          full: [],
          part: [],
        };
        // The dearer telling of the same course wins: a victim that comes back.
        if (course.back > known.course.back) known.course = course;
        const all = hypothesis.modes.every((other) =>
          board.courses(hypothesis, other).some((one) => one.id === course.id),
        );
        if (all) {
          if (!known.full.includes(i)) known.full.push(i);
        } else {
          known.part.push([i, cureOf(board.courses(hypothesis, mode), board.ground.stop, board.tryCost).cost]);
        }
        covers.set(course.id, known);
        hope.set(course.id, (hope.get(course.id) ?? 0) + w / hypothesis.modes.length);
      }
    }
  });

  const named = [...covers.values()]
    .filter((one) => (hope.get(one.course.id) ?? 0) >= LEAST_HOPE)
    .sort((a, b) => (hope.get(b.course.id) ?? 0) - (hope.get(a.course.id) ?? 0) || (a.course.id < b.course.id ? -1 : 1))
    .slice(0, MOST_REPAIRS);
  return named.flatMap(({ course, access, full, part }) => {
    const needed = access === undefined ? [] : [access];
    const setUp = setUpFor({ energy: "plug out", access: needed, pulled: [] }, state, board.groups, shop);
    if (setUp === undefined) return [];
    const left = Float64Array.from(board.live.weights);
    let mends = 0;
    let meant = 0;
    for (const i of full) {
      const w = left[i] as number;
      mends += w * course.cured;
      meant += w;
      left[i] = w * (1 - course.cured);
    }
    let taken = 0;
    for (const [i, cure] of part) {
      taken += (board.live.weights[i] as number) * course.cured * cure;
      meant += board.live.weights[i] as number;
    }
    const open = Uint8Array.from(board.open);
    for (const id of needed) {
      for (const group of accessChain(id, board.groups)) open[board.groupIndex.get(group.id) ?? 0] = 1;
    }
    const cost = priceOf(setUp.minutes + setUp.closeMinutes, shop) + course.cost + board.tryCost;
    const expectedCost = cost + Math.max(0, policy.cost(left, open) - taken);
    return [{ course, setUp, access: needed, cost, expectedCost, mends, meant }];
  });
}
