import type { Course, Shop, UsedParts } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Row } from "./rows.ts";
import { wayOf } from "./way.ts";

/**
 * The same row with a used, bench-tested part, where the shop fits such parts. A protector is never fitted used: what it
 * was through nobody can measure on it.
 */
export function usedRow({ id, courses, machine }: Row, shop: Shop): Row | undefined {
  const used = shop.trading?.used;
  const [course] = courses;
  if (used === undefined || course === undefined || courses.length > 1) return undefined;
  const way = wayOf(course, machine);
  if ((way !== "new part" && way !== "assembly") || !isOffered(course, machine, used)) return undefined;
  const says = `${course.says.replace(/: .*$/, "")}: fit a used one, bench-tested`;
  const price = course.price * used.price;
  return { id: `${id}, used`, machine, used, courses: [{ ...course, says, price }] };
}

function isOffered({ on, assembly }: Course, machine: Machine, { parts }: UsedParts): boolean {
  if (assembly) return parts.has(on);
  const part = machine.parts.find(({ id }) => id === on);
  return part !== undefined && parts.has(part.instance.kind) && !part.instance.modes.some(({ victim }) => victim);
}
