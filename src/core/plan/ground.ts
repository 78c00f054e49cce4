import type { Mode } from "../fault/index.ts";
import { again, type Course, coursesFor, cureOf, priceOf, type Shop } from "../remedy/index.ts";
import type { Cause, Machine, Part } from "../sheet/index.ts";
import type { Case, Hypothesis, Live } from "../suspect/index.ts";
import type { Ground, Target } from "./base-policy.ts";
import { type AccessGroups, accessChain } from "./set-up.ts";
import type { WorkState } from "./work-state.ts";

/** What planning takes from a case. */
export type PlanCase = Pick<Case, "candidates" | "hypotheses" | "outcomes" | "foresee" | "prediction">;

/** Minutes spent on a machine that has something this sheet does not know, before one stops (from memory). */
const UNKNOWN_MINUTES = 30;
/** Minutes to satisfy oneself that nothing is wrong, and to explain it (from memory). */
const NOTHING_MINUTES = 12;

/** The case as the planner sees it: live hypotheses, what it takes to mend each, where each is. */
export interface Board {
  readonly case: PlanCase;
  readonly live: Live;
  readonly ground: Ground;
  readonly groups: AccessGroups;
  readonly groupIndex: ReadonlyMap<string, number>;
  /** Open groups now, by index of `ground.groups`. */
  readonly open: Uint8Array;
  /** Machine with the largest live weight: where words and points are taken from. */
  readonly machine: Machine;
  /** Live hypothesis → its machine. */
  readonly machineOf: (i: number) => Machine;
  /** Live hypotheses that stand for something this sheet does not know. */
  readonly unknown: readonly number[];
  /** Courses for a mode, by mode id. */
  readonly courses: (hypothesis: Hypothesis, mode: Mode) => readonly Course[];
  /** Money for finding out whether a remedy worked. */
  readonly tryCost: number;
}

/** Lays out a case for planning. */
export function layOut(the: PlanCase, live: Live, state: WorkState, shop: Shop, stop: number): Board {
  const hypotheses = Array.from(live.hypotheses, (h) => the.hypotheses[h] as Hypothesis);
  const machineOf = (i: number): Machine => {
    const machine = the.candidates[(hypotheses[i] as Hypothesis).candidate]?.machine;
    if (machine === undefined) throw new RangeError(`layOut: hypothesis ${i} has no machine`);
    return machine;
  };
  const groups = accessOf(the);
  const groupIds = [...groups.keys()];
  const groupIndex = new Map(groupIds.map((id, n) => [id, n]));
  const courses = courseMemo(the, shop, state);
  const tryCost = priceOf(shop.minutes.verify, shop);

  const targets = new TargetList(groups, groupIndex, shop);
  const weightOfMode = new Map<string, number>();
  hypotheses.forEach((hypothesis, i) => {
    for (const mode of hypothesis.modes) {
      weightOfMode.set(mode.id, (weightOfMode.get(mode.id) ?? 0) + (live.weights[i] as number));
    }
  });
  const targetOf = new Int32Array(hypotheses.length);
  const cure = new Float64Array(hypotheses.length);
  hypotheses.forEach((hypothesis, i) => {
    const machine = machineOf(i);
    if (hypothesis.kind === "not on this sheet") {
      targetOf[i] = targets.special("?", "something I do not know about this machine", UNKNOWN_MINUTES, true);
      cure[i] = stop;
      return;
    }
    if (hypothesis.modes.length === 0) {
      targetOf[i] = targets.special("=", "nothing wrong", NOTHING_MINUTES, false);
      cure[i] = priceOf(NOTHING_MINUTES, shop);
      return;
    }
    const main = hypothesis.modes.reduce((a, b) =>
      (weightOfMode.get(b.id) ?? 0) > (weightOfMode.get(a.id) ?? 0) ? b : a,
    );
    for (const mode of hypothesis.modes) {
      const best = cureOf(courses(hypothesis, mode), lossOf(mode, machine, stop, shop), tryCost);
      cure[i] = (cure[i] as number) + best.cost;
      if (mode === main) targetOf[i] = targets.of(mode, machine, hypothesis.failsOn, best.courses[0]);
    }
    cure[i] = Math.min(cure[i] as number, stop + priceOf(shop.minutes.check, shop));
  });

  return {
    case: the,
    live,
    groups,
    groupIndex,
    machineOf,
    unknown: hypotheses.flatMap(({ kind }, i) => (kind === "not on this sheet" ? [i] : [])),
    courses,
    tryCost,
    machine: heaviest(the, hypotheses, live),
    open: Uint8Array.from(groupIds, (id) => (state.open.has(id) ? 1 : 0)),
    ground: {
      targets: targets.list,
      groups: groupIds.map((id) => ({ id, cost: openingCost(id, groups, state, shop) })),
      targetOf,
      cure,
      stop,
    },
  };
}

/** What is lost when a fault stays: the machine; where only its use is wrong, another call. */
export function lossOf(mode: Mode, machine: Machine, stop: number, shop: Shop): number {
  return machine.causes[mode.cause]?.group === "use" ? Math.min(stop, shop.comeback) : stop;
}

function accessOf(the: PlanCase): AccessGroups {
  const groups = new Map<string, Machine["access"][number]>();
  for (const { machine } of the.candidates) {
    for (const group of machine.access) if (!groups.has(group.id)) groups.set(group.id, group);
  }
  return groups;
}

function openingCost(id: string, groups: AccessGroups, state: WorkState, shop: Shop): number {
  const group = groups.get(id);
  if (group === undefined) return 0;
  const move = state.position !== undefined && group.position !== state.position ? shop.minutes.changePosition : 0;
  return priceOf(group.openMinutes + group.closeMinutes + move, shop);
}

/** Courses by mode; what was done in this job and did not help is done once more at most. */
function courseMemo(the: PlanCase, shop: Shop, state: WorkState): Board["courses"] {
  const whyKnown: ReadonlySet<string> = new Set(state.whys.keys());
  const done = state.repairs.map(({ on, remedy }) => `${on}/${remedy}`);
  const known = new Map<string, readonly Course[]>();
  return (hypothesis, mode) => {
    // A linked pair mends the cause as well, so its victim does not come back for want of one.
    const linked = hypothesis.kind === "linked pair";
    const key = `${linked ? "linked " : ""}${mode.id}`;
    let courses = known.get(key);
    if (courses === undefined) {
      const machine = the.candidates[hypothesis.candidate]?.machine;
      if (machine === undefined) throw new RangeError("courses: hypothesis without a machine");
      const part = machine.parts[mode.part];
      const answered = linked && part !== undefined ? new Set([...whyKnown, part.id]) : whyKnown;
      const all = [...coursesFor(machine, mode, shop, answered), ...byNewPart(machine, mode, shop, answered)];
      courses = all.flatMap((course) => again(course, done.filter((id) => id === course.id).length) ?? []);
      known.set(key, courses);
    }
    return courses;
  };
}

/** A joint at a part's own pin is remade when the part is fitted new. */
export function byNewPart(
  machine: Machine,
  mode: Mode,
  shop: Shop,
  whyKnown: ReadonlySet<string> = new Set(),
): Course[] {
  const host = machine.parts[mode.part]?.joint?.part;
  const index = host === undefined ? -1 : machine.parts.findIndex((part) => part.id === host);
  const part = machine.parts[index];
  if (part === undefined || mode.parts.length > 1) return [];
  // Of the part's own remedies those that fit something new, whatever they are meant for.
  const ofPart = part.instance.modes.flatMap((rule) =>
    coursesFor(
      machine,
      { ...mode, id: `${part.id}/${rule.name}`, part: index, parts: [index], partSays: part.says, victim: false },
      shop,
      whyKnown,
    ),
  );
  const found = new Map<string, Course>();
  for (const course of ofPart) if (course.price > 0 && !course.assembly) found.set(course.id, course);
  return [...found.values()];
}

function heaviest(the: PlanCase, hypotheses: readonly Hypothesis[], live: Live): Machine {
  const weight = new Float64Array(the.candidates.length);
  hypotheses.forEach((hypothesis, i) => {
    weight[hypothesis.candidate] = (weight[hypothesis.candidate] as number) + (live.weights[i] as number);
  });
  const best = weight.indexOf(Math.max(...weight));
  const machine = the.candidates[best]?.machine;
  if (machine === undefined) throw new RangeError("layOut: a case without candidates");
  return machine;
}

/** Targets as they are met, one for each place at which something can be mended. */
class TargetList {
  readonly list: Target[] = [];
  readonly #index = new Map<string, number>();
  readonly #groups: AccessGroups;
  readonly #groupIndex: ReadonlyMap<string, number>;
  readonly #shop: Shop;

  constructor(groups: AccessGroups, groupIndex: ReadonlyMap<string, number>, shop: Shop) {
    this.#groups = groups;
    this.#groupIndex = groupIndex;
    this.#shop = shop;
  }

  special(id: string, says: string, minutes: number, endless: boolean): number {
    return this.#at(id, () => ({
      id,
      says,
      check: priceOf(minutes, this.#shop),
      tells: 1,
      checkGroups: [],
      mendGroups: [],
      forNothing: 0,
      endless,
    }));
  }

  of(mode: Mode, machine: Machine, failsOn: number, course: Course | undefined): number {
    // What comes and goes has to be tried again and again: another target, dearer to test. So is what is mended in
    // another way: knowing the part is not yet knowing what to do to it.
    const fitful = failsOn < 1;
    const place = placeOf(mode, machine);
    return this.#at(`${place.id} ${course?.id ?? ""}${fitful ? " now and then" : ""}`, () => ({
      id: place.id,
      says: place.says,
      check: priceOf(place.minutes(this.#shop) * (fitful ? 2 : 1), this.#shop),
      tells: 1,
      checkGroups: this.#chain(place.access),
      mendGroups: this.#chain(place.access),
      forNothing: (course?.price ?? 0) > 0 ? this.#shop.wrongPart : 0,
      endless: false,
    }));
  }

  #chain(access: string | undefined): number[] {
    if (access === undefined) return [];
    return accessChain(access, this.#groups).map((group) => this.#groupIndex.get(group.id) ?? 0);
  }

  #at(key: string, make: () => Target): number {
    const known = this.#index.get(key);
    if (known !== undefined) return known;
    this.#index.set(key, this.list.length);
    this.list.push(make());
    return this.list.length - 1;
  }
}

/** Where a mode is mended: its part, its group of joints, its cause. */
export function placeOf(
  mode: Mode,
  machine: Machine,
): { readonly id: string; readonly says: string; readonly access?: string; readonly minutes: (shop: Shop) => number } {
  if (mode.cause >= 0) {
    const cause = machine.causes[mode.cause] as Cause;
    const access = cause.look?.access ?? cause.measures[0]?.access;
    const minutes = cause.look?.minutes ?? cause.measures[0]?.minutes;
    return {
      id: cause.id,
      says: cause.says,
      minutes: (shop) => Math.max(minutes ?? shop.minutes.check, shop.minutes.look) * 2,
      ...(access === undefined ? {} : { access }),
    };
  }
  const parts = (mode.parts.length > 0 ? mode.parts : [mode.part]).map((part) => machine.parts[part] as Part);
  const access = parts.find((part) => part.access !== undefined)?.access;
  return {
    id: parts.map((part) => part.id).join("+"),
    says: mode.partSays,
    minutes: (shop) => shop.minutes.check,
    ...(access === undefined ? {} : { access }),
  };
}
