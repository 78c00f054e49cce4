import { type Course, coursesFor, cureOf, priceOf, type Shop, stopCost } from "../remedy/index.ts";
import type { Belief, Case, Hypothesis } from "../suspect/index.ts";

/** What may be said before the first visit. Chances are 0 to 1, money is the shop's own. */
export interface Outlook {
  /** Chance that one visit ends it mended, or with nothing wrong, with what the van carries. */
  readonly oneVisit: number;
  /** The same with all of `load` in the van. */
  readonly oneVisitLoaded: number;
  /** Call-out, mending and part: nine jobs in ten that are mended cost no less and no more. Finding the fault comes on top. */
  readonly price?: { readonly lo: number; readonly hi: number };
  /** Parts that are not in the van and may be wanted, likeliest first. */
  readonly load: readonly LoadPart[];
}

export interface LoadPart {
  /** Part or assembly by id, and what is done: `pump`, "drain pump: fit a new one". */
  readonly on: string;
  readonly says: string;
  readonly price: number;
  /** Chance that it is wanted. */
  readonly p: number;
}

/** Parts wanted less often than this are not named: one in twenty (our own choice). */
const LEAST_WANTED = 0.05;
const MOST_LOADED = 5;
/** Hypotheses lighter than this change nothing that is said. */
const LEAST_WEIGHT = 1e-4;

/**
 * The outlook of a job on the telephone: its possible faults carried to the remedies that would be tried for each.
 * Each fault is taken to be found; its remedies are tried in the order of `cureOf`.
 *
 * @param ageYears  age of the machine, where known: it decides what is not worth mending
 */
export function outlook(
  the: Pick<Case, "candidates" | "hypotheses">,
  belief: Belief,
  shop: Shop,
  ageYears?: number,
): Outlook {
  const stop = stopCost(shop, ageYears);
  const tryCost = priceOf(shop.minutes.verify, shop);
  const cases = the.hypotheses.flatMap((hypothesis, h) => {
    const weight = Math.exp(belief.logPosterior[h] as number);
    if (weight < LEAST_WEIGHT) return [];
    return [{ weight, kind: hypothesis.kind, cures: curesOf(the, hypothesis, shop, stop, tryCost) }];
  });
  const load = loadOf(cases);
  const loaded = new Set(load.map(({ says }) => says));
  const oneVisit = (inVan: (course: Course) => boolean): number =>
    cases.reduce((sum, { weight, kind, cures }) => {
      if (kind === "not on this sheet") return sum;
      return sum + weight * cures.reduce((product, courses) => product * curedBy(courses.filter(inVan)), 1);
    }, 0);
  const price = priceRange(cases, shop);
  return {
    oneVisit: oneVisit(({ fetched }) => !fetched),
    oneVisitLoaded: oneVisit(({ fetched, says }) => !fetched || loaded.has(says)),
    ...(price === undefined ? {} : { price }),
    load,
  };
}

interface WeighedCase {
  readonly weight: number;
  readonly kind: Hypothesis["kind"];
  /** For each fault of it the courses in the order in which they are tried. */
  readonly cures: readonly (readonly Course[])[];
}

function curesOf(
  { candidates }: Pick<Case, "candidates">,
  { candidate, modes }: Hypothesis,
  shop: Shop,
  stop: number,
  tryCost: number,
): readonly (readonly Course[])[] {
  const machine = candidates[candidate]?.machine;
  if (machine === undefined) throw new RangeError(`outlook: no candidate ${candidate}`);
  // On the telephone nobody knows why a protector opened, and it is asked before the job ends: what comes back is no matter here.
  return modes.map((mode) => cureOf(coursesFor(machine, mode, shop), stop, tryCost).courses);
}

function curedBy(courses: readonly Course[]): number {
  return 1 - courses.reduce((fails, { cured }) => fails * (1 - cured), 1);
}

/** What the first remedy of each fault wants that the van does not carry. */
function loadOf(cases: readonly WeighedCase[]): readonly LoadPart[] {
  const wanted = new Map<string, LoadPart>();
  for (const { weight, cures } of cases) {
    const firsts = new Map(cures.flatMap(([first]) => (first?.fetched === true ? [[first.says, first] as const] : [])));
    for (const [says, { on, price }] of firsts) {
      wanted.set(says, { on, says, price, p: (wanted.get(says)?.p ?? 0) + weight });
    }
  }
  return [...wanted.values()]
    .filter(({ p }) => p >= LEAST_WANTED)
    .sort((a, b) => b.p - a.p || (a.says < b.says ? -1 : 1))
    .slice(0, MOST_LOADED);
}

/** The middle nine tenths of what mending costs, over the faults that are worth mending. */
function priceRange(cases: readonly WeighedCase[], shop: Shop): Outlook["price"] {
  const prices = cases.flatMap(({ weight, cures }) => {
    const firsts = cures.flatMap(([first]) => (first === undefined ? [] : [first]));
    if (firsts.length === 0 || firsts.length < cures.length) return [];
    const money = firsts.reduce((sum, { minutes, price }) => sum + priceOf(minutes, shop) + price, shop.callOut);
    return [{ money, weight }];
  });
  if (prices.length === 0) return undefined;
  prices.sort((a, b) => a.money - b.money);
  return { lo: quantile(prices, 0.05), hi: quantile(prices, 0.95) };
}

/** The least amount that at least this share of the weight does not exceed. */
function quantile(sorted: readonly { readonly money: number; readonly weight: number }[], share: number): number {
  const whole = sorted.reduce((sum, { weight }) => sum + weight, 0);
  let below = 0;
  for (const { money, weight } of sorted) {
    below += weight;
    if (below >= share * whole) return money;
  }
  return sorted.at(-1)?.money ?? 0;
}
