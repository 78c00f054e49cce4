import { accountOf, type WorkedJob } from "../ledger/index.ts";
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
  const items = [...shelf.items];
  const taken = jobs.flatMap((worked) =>
    worked.state.repairs.flatMap((repair): readonly Taken[] => {
      const takes = partUsedBy(worked, repair);
      if (takes === undefined) return [];
      const place = placeTakenFrom(items, takes);
      const item = place === undefined ? undefined : items[place];
      if (place === undefined || item === undefined) return [{ job: worked.job.id, ...takes }];
      items[place] = { ...item, count: item.count - 1 };
      return [{ job: worked.job.id, ...takes, item: place }];
    }),
  );
  return { shelf: { ...shelf, items }, taken };
}

/** The first place, van before bench before store, that holds such a part which may be fitted; by its index. */
export function placeTakenFrom(
  items: readonly ShelfItem[],
  { part, state }: Pick<Taken, "part" | "state">,
): number | undefined {
  for (const where of PLACES) {
    const place = items.findIndex(
      (item) =>
        item.where === where && item.count > 0 && item.part === part && item.state === state && mayBeFitted(item),
    );
    if (place >= 0) return place;
  }
  return undefined;
}

/**
 * The part that a repair took off the shelf: none where it fitted none, a joint alone (tabs and splices are not counted), or
 * one that was ordered for this job and arrived.
 */
export function partUsedBy(
  worked: WorkedJob,
  { on, remedy }: { readonly on: string; readonly remedy: string },
): Pick<Taken, "part" | "state"> | undefined {
  const part = partOf(worked, on, remedy);
  if (part === undefined) return undefined;
  const { ordered } = accountOf(worked.job);
  const isBought = ordered.some((order) => order.arrived && (order.part === on || order.part === part));
  return isBought ? undefined : { part, state: isUsed(remedy) ? "used" : "new" };
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
