import type { Machine } from "../sheet/index.ts";
import type { Course } from "./course.ts";
import type { Shop } from "./shop.ts";

/** How far a course's minutes and the price of its part may reach. */
export interface Reach {
  readonly minutes: { readonly lo: number; readonly hi: number };
  readonly price: { readonly lo: number; readonly hi: number };
}

/** The range behind a course's plain figures, as the sheet or the kind gives it. */
export function reachOf(course: Course, machine: Machine, shop: Shop): Reach {
  const rule = ruleOf(course, machine);
  if (rule === undefined) {
    const { minutes, price } = course;
    return { minutes: { lo: minutes, hi: minutes }, price: { lo: price, hi: price } };
  }
  const { minutes, partShare } = rule;
  return {
    // The assembly of a part may take the minutes of the part's own remedy.
    minutes: { lo: Math.min(minutes.lo, course.minutes), hi: Math.max(minutes.hi, course.minutes) },
    price: { lo: Math.max(0, partShare.lo) * shop.newMachine, hi: Math.max(0, partShare.hi) * shop.newMachine },
  };
}

function ruleOf({ on, remedy, assembly }: Course, machine: Machine) {
  if (assembly) return machine.assemblies.find(({ id }) => id === on);
  const cause = machine.causes.find(({ id }) => id === on);
  const remedies = cause?.remedies ?? machine.parts.find(({ id }) => id === on)?.instance.remedies;
  return remedies?.find(({ name }) => name === remedy);
}
