import { type LedgerEvent, withdrawnIn } from "../ledger/index.ts";
import { PLACES, type ShelfItem, type ShelfPlace } from "./shelf.ts";
import { placeTakenFrom, type Taken } from "./taken.ts";

/** New parts put in one place, or taken out of it by hand: the body of an event `stocked`. */
export interface Stocked {
  /** Part kind, or an assembly by its id. */
  readonly part: string;
  readonly says: string;
  readonly where: ShelfPlace;
  /** So many more lie there; below zero, fewer. */
  readonly by: number;
  /** So many should lie there from now on; as before where not told. */
  readonly least?: number;
}

/** What a repair took off the shelf, worked out once and kept: the body of an event `used`. */
export interface Used {
  /** Id of the event that told the repair. */
  readonly repair: string;
  /** The number that people call its job by. */
  readonly job: string;
  /** None where it took no part, or one that was bought for this job. */
  readonly takes?: Pick<Taken, "part" | "state">;
}

/** One event of the stock. */
interface Told {
  readonly event: string;
  /** ISO 8601, UTC */
  readonly time: string;
  readonly isTakenBack: boolean;
}

/** The stock as its events tell it, in the order of their ids; they belong to no job. */
export interface StockRecord {
  readonly stocked: readonly (Stocked & Told)[];
  /** One a repair. */
  readonly used: readonly (Used & Told)[];
}

/** What lies where, after everything that was put there and used up. */
export interface Stock {
  readonly items: readonly ShelfItem[];
  /** Parts that repairs used while the shelf held none of what it should, and nobody has counted since. */
  readonly lacking: readonly Taken[];
}

/** Folds the events of the stock, in whatever order and however often they came. What is no such event is left out. */
export function stockRecordOf(events: Iterable<LedgerEvent>): StockRecord {
  const sorted = [...new Map([...events].map((event) => [event.id, event])).values()].sort(byId);
  const withdrawn = withdrawnIn(sorted);
  const toldBy = ({ id, time }: LedgerEvent): Told => ({ event: id, time, isTakenBack: withdrawn.has(id) });
  const of = <T>(kind: string, is: (body: unknown) => body is T): readonly (T & Told)[] =>
    sorted.flatMap((event) => (event.kind === kind && is(event.body) ? [{ ...event.body, ...toldBy(event) }] : []));
  const used = of("used", isUsed).filter(({ isTakenBack }) => !isTakenBack);
  return {
    stocked: of("stocked", isStocked),
    // Two tabs may have worked one repair out at once.
    used: [...new Map(used.map((one) => [one.repair, one])).values()],
  };
}

/**
 * The stock now: what was put there, taken out by hand and used by repairs, each at its time.
 *
 * @param tested  used parts with their bench tests, each with the id of the event that put it on the shelf
 * @param stands  does the repair still count? One that was taken back took nothing
 */
export function stockNow(
  { stocked, used }: { readonly stocked: StockRecord["stocked"]; readonly used: readonly Used[] },
  tested: readonly { readonly event: string; readonly item: ShelfItem }[],
  stands: (repair: string) => boolean,
): Stock {
  const items: ShelfItem[] = [];
  let lacking: Taken[] = [];
  const put = ({ part, says, where, by, least }: Stocked): void => {
    const place = items.findIndex((item) => item.tag === undefined && sameItem(item, { part, says, where }));
    const before = items[place] ?? { part, says, where, state: "new", count: 0, least: 0 };
    const after = { ...before, count: Math.max(0, before.count + by), least: least ?? before.least };
    if (place < 0) items.push(after);
    else items[place] = after;
    lacking = lacking.filter((one) => one.part !== part);
  };
  const use = ({ job, takes }: Used): void => {
    if (takes === undefined) return;
    const place = placeTakenFrom(items, takes);
    const item = place === undefined ? undefined : items[place];
    if (place !== undefined && item !== undefined) items[place] = { ...item, count: item.count - 1 };
    else if (items.some(({ part, state }) => part === takes.part && state === takes.state))
      lacking.push({ job, ...takes });
  };
  const acts = [
    ...stocked.filter(({ isTakenBack }) => !isTakenBack).map((one) => ({ id: one.event, act: () => put(one) })),
    ...tested.map(({ event, item }) => ({ id: event, act: () => items.push(item) })),
    ...used.filter(({ repair }) => stands(repair)).map((one) => ({ id: one.repair, act: () => use(one) })),
  ];
  for (const { act } of acts.sort(byId)) act();
  return { items, lacking };
}

type Named = Pick<ShelfItem, "part" | "says" | "where">;

function sameItem(one: Named, other: Named): boolean {
  return one.part === other.part && one.says === other.says && one.where === other.where;
}

function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

function isStocked(body: unknown): body is Stocked {
  const { part, says, where, by, least } = (body ?? {}) as Partial<Stocked>;
  const isWhole = (n: unknown): boolean => Number.isInteger(n) && Math.abs(n as number) <= 10_000;
  return (
    isText(part) &&
    isText(says) &&
    PLACES.some((place) => place === where) &&
    isWhole(by) &&
    (least === undefined || (isWhole(least) && least >= 0))
  );
}

function isUsed(body: unknown): body is Used {
  const { repair, job, takes } = (body ?? {}) as Partial<Used>;
  const isPart = takes === undefined || (isText(takes.part) && (takes.state === "new" || takes.state === "used"));
  return isText(repair) && isText(job) && isPart;
}

function isText(value: unknown): value is string {
  return typeof value === "string" && value !== "";
}
