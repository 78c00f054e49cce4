import type { Course } from "./course.ts";

/** The least dear way to be rid of one known fault. */
export interface Cure {
  /** Expected money, stopping included where that is less. */
  readonly cost: number;
  /** Courses in the order in which they are tried; each next one only if the last failed. */
  readonly courses: readonly Course[];
  /** Chance that it ends mended. */
  readonly mended: number;
}

/**
 * In which order to try remedies that may fail, for a fault that is known: by cost over chance of success, stopping as
 * soon as going on would cost more than it saves.
 *
 * @param stopCost  money lost when the job stops without a repair
 * @param tryCost   money for finding out whether a remedy worked
 * @source          ratio rule for independent alternatives: Kadane & Simon 1977; Mitten 1960 (from memory)
 */
export function cureOf(courses: readonly Course[], stopCost: number, tryCost: number): Cure {
  const order = courses
    .filter((course) => course.cured > 0)
    .sort((a, b) => (a.cost + tryCost) / a.cured - (b.cost + tryCost) / b.cured || (a.id < b.id ? -1 : 1));
  // Backwards: what is left to pay once the first `i` courses have failed.
  let left = stopCost;
  let mended = 0;
  let kept: Course[] = [];
  for (const course of order.reverse()) {
    const going = course.cost + tryCost + (1 - course.cured) * left;
    if (going >= left) continue;
    left = going;
    mended = course.cured + (1 - course.cured) * mended;
    kept = [course, ...kept];
  }
  return { cost: left, courses: kept, mended };
}
