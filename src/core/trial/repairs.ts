import type { Mode } from "../fault/index.ts";
import { byNewPart } from "../plan/index.ts";
import { type Course, coursesFor } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Bench } from "./hands.ts";

/** Everything that can be done to one part or cause of a machine. */
export interface RepairPlace {
  /** Part or cause. */
  readonly id: string;
  /** Cover it is behind. */
  readonly access: string | undefined;
  readonly modes: readonly Mode[];
}

/** Parts and causes with their modes; joints that nothing parts are one place. */
export function placesOf(machine: Machine, modes: readonly Mode[]): readonly RepairPlace[] {
  const places = new Map<string, { id: string; access: string | undefined; modes: Mode[] }>();
  for (const mode of modes) {
    const cause = machine.causes[mode.cause];
    const part = machine.parts[mode.part];
    const id = cause?.id ?? part.id;
    const access = cause === undefined ? part.access : cause.look?.access;
    const place = places.get(id) ?? { id, access, modes: [] };
    place.modes.push(mode);
    places.set(id, place);
  }
  return [...places.values()];
}

/** What can be done about one mode, the new part that remakes its own joints included. */
export function repairsOf(bench: Bench, mode: Mode): readonly Course[] {
  return [...coursesFor(bench.machine, mode, bench.shop), ...byNewPart(bench.machine, mode, bench.shop)];
}

/** All remedies of a machine by their ids. */
export function repairsById(bench: Bench, modes: readonly Mode[]): ReadonlyMap<string, Course> {
  return new Map(modes.flatMap((mode) => repairsOf(bench, mode)).map((course) => [course.id, course]));
}
