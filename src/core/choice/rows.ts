import type { Mode } from "../fault/index.ts";
import { byNewPart } from "../plan/index.ts";
import { type Course, coursesFor, cureOf, idTogether, type Shop, type UsedParts } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Case, Hypothesis } from "../suspect/index.ts";

/** One or two courses that are done in one go. */
export interface Row {
  readonly id: string;
  readonly courses: readonly Course[];
  /** A machine that has what they are done to. */
  readonly machine: Machine;
  /** Its part is fitted used, on these terms. */
  readonly used?: UsedParts;
}

/** One possible explanation, with what can be done about each of its faults. */
export interface Explained {
  readonly hypothesis: Hypothesis;
  readonly weight: number;
  readonly machine: Machine;
  /** By mode; what was done in this job and did not help is left out. */
  readonly courses: readonly (readonly Course[])[];
}

/** The explanations that still matter, with their courses: the same ones that the plan weighs. */
export function explained(
  the: Pick<Case, "candidates" | "hypotheses">,
  live: readonly { readonly hypothesis: number; readonly weight: number }[],
  shop: Shop,
  whyKnown: ReadonlySet<string>,
  done: ReadonlySet<string>,
): readonly Explained[] {
  const known = new Map<string, readonly Course[]>();
  const coursesOf = (hypothesis: Hypothesis, machine: Machine, mode: Mode): readonly Course[] => {
    // A cause that is mended with its victim answers why the victim opened.
    const isLinked = hypothesis.kind === "linked pair";
    const key = `${hypothesis.candidate} ${isLinked} ${mode.id}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const part = machine.parts[mode.part];
    const answered = isLinked && part !== undefined ? new Set([...whyKnown, part.id]) : whyKnown;
    const all = [...coursesFor(machine, mode, shop, answered), ...byNewPart(machine, mode, shop, answered)];
    const courses = all.filter(({ id }) => !done.has(id));
    known.set(key, courses);
    return courses;
  };
  return live.map(({ hypothesis: h, weight }) => {
    const hypothesis = the.hypotheses[h] as Hypothesis;
    const machine = the.candidates[hypothesis.candidate]?.machine;
    if (machine === undefined) throw new RangeError(`explained: hypothesis ${h} has no machine`);
    const courses = hypothesis.modes.map((mode) => coursesOf(hypothesis, machine, mode));
    return { hypothesis, weight, machine, courses };
  });
}

/** Two faults are mended in one go where they are there together as often as this (our own choice). */
const TOGETHER = 0.15;

/** Every single course, and pairs of them where it is likely enough that both faults are there. */
export function rowsOf(all: readonly Explained[], stop: number, tryCost: number): readonly Row[] {
  const rows = new Map<string, Row>();
  const add = (courses: readonly Course[], machine: Machine): void => {
    const id = idTogether(courses);
    const before = rows.get(id);
    // Of a single course the dearer telling wins: a victim that comes back. Of a pair the likelier: it comes first.
    const isDearer = courses.length === 1 && courses[0].back > (before?.courses[0]?.back ?? -1);
    if (before === undefined || isDearer) rows.set(id, { id, courses, machine });
  };
  const together = new Map<string, number>();
  for (const { hypothesis, machine, courses, weight } of all) {
    for (const course of courses.flat()) add([course], machine);
    if (hypothesis.modes.length < 2) continue;
    const order = hypothesis.modes
      .map((mode, n) => ({ mode, own: courses[n] as readonly Course[] }))
      .sort((a, b) => Number(a.mode.victim) - Number(b.mode.victim) || (a.mode.id < b.mode.id ? -1 : 1));
    const firsts = order.flatMap(({ own }) => cureOf(own, stop, tryCost).courses.slice(0, 1));
    if (firsts.length < order.length || new Set(firsts.map(({ id }) => id)).size < firsts.length) continue;
    add(firsts, machine);
    const id = idTogether(firsts);
    together.set(id, (together.get(id) ?? 0) + weight);
  }
  return [...rows.values()].filter(({ id, courses }) => courses.length === 1 || (together.get(id) ?? 0) >= TOGETHER);
}

/** What a row does to an explanation: the chance that all of it is gone, and that it comes back then. */
export function effectOf(
  { courses, used }: Row,
  explanation: Explained,
): { readonly cured: number; readonly back: number } {
  const own = explanation.courses.map((all) => all.find(({ id }) => courses.some((course) => course.id === id)));
  if (own.length === 0 || own.some((course) => course === undefined)) return { cured: 0, back: 0 };
  const product = (of: (course: Course) => number): number =>
    own.reduce((so, course) => so * (course === undefined ? 0 : of(course)), 1);
  const asNew = { cured: product(({ cured }) => cured), back: 1 - product(({ back }) => 1 - back) };
  if (used === undefined) return asNew;
  return { cured: asNew.cured * used.cured, back: 1 - (1 - asNew.back) * (1 - used.back) };
}
