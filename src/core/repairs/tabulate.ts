import { BARRIERS, type Barrier, CATEGORIES, type Repair, type Status } from "./repair.ts";

/** What became of the repairs of one category. Shares are 0 to 1, of nothing NaN. */
export interface CategoryRow {
  readonly category: string;
  readonly count: number;
  /** Those whose outcome is known: what the next three are shares of. */
  readonly known: number;
  readonly fixed: number;
  readonly repairable: number;
  readonly endOfLife: number;
  /** Those whose age is told, or follows from the year, and its 10th, 25th, 50th, 75th and 90th hundredth: years. */
  readonly aged: number;
  readonly ages: readonly [p10: number, p25: number, p50: number, p75: number, p90: number];
  /** Ends of life with a barrier told, and the share of each. */
  readonly barred: number;
  readonly barriers: ReadonlyMap<Barrier, number>;
}

/** Older than this is a slip of the pen (the year of the repair less one of 1900): years. */
const OLDEST = 80;

/** All repairs, then each category that occurs, the most frequent first; those without a category only in all. */
export function tabulate(repairs: readonly Repair[]): readonly CategoryRow[] {
  const rows = CATEGORIES.flatMap((category) => {
    const own = repairs.filter((repair) => repair.category === category);
    return own.length === 0 ? [] : [rowOf(category, own)];
  });
  return [rowOf("all", repairs), ...rows.sort((a, b) => b.count - a.count)];
}

function rowOf(category: string, repairs: readonly Repair[]): CategoryRow {
  const known = repairs.filter(({ status }) => status !== "Unknown");
  const share = (status: Status): number => known.filter((repair) => repair.status === status).length / known.length;
  const ages = Float64Array.from(repairs.flatMap((repair) => ageOf(repair) ?? [])).sort();
  const barred = repairs.flatMap(({ barrier }) => barrier ?? []);
  return {
    category,
    count: repairs.length,
    known: known.length,
    fixed: share("Fixed"),
    repairable: share("Repairable"),
    endOfLife: share("End of life"),
    aged: ages.length,
    ages: [quantile(ages, 0.1), quantile(ages, 0.25), quantile(ages, 0.5), quantile(ages, 0.75), quantile(ages, 0.9)],
    barred: barred.length,
    barriers: new Map(
      BARRIERS.map((barrier) => [barrier, barred.filter((one) => one === barrier).length / barred.length]),
    ),
  };
}

function ageOf({ ageYears, madeIn, date }: Repair): number | undefined {
  const age = ageYears ?? (madeIn === undefined || date === undefined ? undefined : Number(date.slice(0, 4)) - madeIn);
  return age === undefined || age < 0 || age > OLDEST ? undefined : age;
}

/** Between two values in a straight line, as most tables of quantiles do. */
function quantile(sorted: Float64Array, share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}
