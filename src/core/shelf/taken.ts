import type { WorkedJob } from "../ledger/index.ts";
import { mayBeFitted, PLACES, type Shelf, type ShelfItem } from "./shelf.ts";

/** A part that a remedy took. */
export interface Taken {
  readonly job: string;
  /** Part kind, or an assembly's id. */
  readonly part: string;
  readonly state: "new" | "used";
  /** Item of the shelf it came from, by its place in the list; none where the shelf held none that may be fitted. */
  readonly item?: number;
}

/** A shelf after some jobs. */
export interface ShelfAfter {
  readonly shelf: Shelf;
  readonly taken: readonly Taken[];
}

/**
 * Takes off the shelf what the remedies of jobs used up: from the van, then the bench, then the store; the rest of the
 * shelf stays as it is. A used part without a passed bench test is never taken.
 *
 * @param jobs  whose repairs are not yet taken off the counts of the file
 */
export function shelfAfter(shelf: Shelf, jobs: readonly WorkedJob[]): ShelfAfter {
  const counts = shelf.items.map(({ count }) => count);
  const order = shelf.items
    .map((item, index) => ({ item, index }))
    .sort((a, b) => PLACES.indexOf(a.item.where) - PLACES.indexOf(b.item.where) || a.index - b.index);
  const taken = jobs.flatMap((job) =>
    partsUsed(job).map(({ part, state }): Taken => {
      const found = order.find(({ item, index }) => fits(item, part, state) && (counts[index] as number) > 0);
      if (found === undefined) return { job: job.job.id, part, state };
      counts[found.index] = (counts[found.index] as number) - 1;
      return { job: job.job.id, part, state, item: found.index };
    }),
  );
  const items = shelf.items.map((item, index) => ({ ...item, count: counts[index] as number }));
  return { shelf: { ...shelf, items }, taken };
}

function fits(item: ShelfItem, part: string, state: "new" | "used"): boolean {
  return item.part === part && item.state === state && mayBeFitted(item);
}

/** Parts that the repairs of a job used up, joints left out: tabs and splices are not counted. */
function partsUsed(worked: WorkedJob): readonly Pick<Taken, "part" | "state">[] {
  return worked.state.repairs.flatMap(({ on, remedy }) => {
    const part = partOf(worked, on, remedy);
    return part === undefined ? [] : [{ part, state: isUsed(remedy) ? "used" : "new" } as const];
  });
}

export function isUsed(remedy: string): boolean {
  return /\bused\b/.test(remedy);
}

/**
 * The kind of part that a remedy fits, or the assembly: none where it fits nothing, or a joint alone.
 *
 * @param on  part, assembly or cause by its id
 */
export function partOf({ case: the }: WorkedJob, on: string, remedy: string): string | undefined {
  const machines = the.candidates.map(({ machine }) => machine);
  if (machines.some(({ assemblies }) => assemblies.some(({ id }) => id === on))) return on;
  const part = machines.flatMap(({ parts }) => parts).find(({ id }) => id === on);
  const cause = machines.flatMap(({ causes }) => causes).find(({ id }) => id === on);
  const name = remedy.slice(remedy.startsWith(`${on}/`) ? on.length + 1 : 0).replace(/, used$/, "");
  const rule = (part?.instance.remedies ?? cause?.remedies ?? []).find((one) => one.name === name);
  const isFitted = rule === undefined ? /\b(fit|fitted|new|used)\b/.test(name) : rule.partShare.nominal > 0;
  if (!isFitted || part?.joint !== undefined) return undefined;
  // A cause (a belt, a seal) is its own part.
  return part?.instance.kind ?? cause?.id;
}
