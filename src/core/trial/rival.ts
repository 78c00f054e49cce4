import type { JobEvent } from "../ledger/index.ts";
import { again, type Course, matchesName, priceOf, stopCost } from "../remedy/index.ts";
import type { Belief } from "../suspect/index.ts";
import type { Hands } from "./hands.ts";
import type { History } from "./history.ts";
import { placesOf, type RepairPlace, repairsOf } from "./repairs.ts";
import { type Desk, foldOf, prove } from "./technician.ts";
import { isBad, minutesTo, usualTest } from "./usual-test.ts";

/** A usual test finds nothing at a place that is bad after all: a fault that comes and goes, or one it does not meet (from memory). */
const MISSED = 0.15;
/** A good place fails its usual test (from memory). */
const FALSE_ALARM = 0.05;
/** Reasons for an open protector that are gone after: those the sheet's table gives at least this share. */
const LIKELY_REASON = 0.1;

/**
 * What a technician without a plan knows and holds to: the odds by what was told on the telephone, corrected by hand as
 * tries fail and tests pass; the remedy of a place that saves the most; a stop where the next try would cost more than it
 * saves; and the duty to look why a protector opened before the machine runs again.
 */
export class Rival {
  readonly places: readonly RepairPlace[];
  readonly #desk: Desk;
  readonly #hands: Hands;
  /** Odds of each mode, over all that may be, what is no part of a place included; not made to sum to 1 again. */
  readonly #odds: Map<string, number>;
  /** How often each remedy was done, by id. */
  readonly #done = new Map<string, number>();
  readonly #stop: number;
  #whole = 1;

  constructor(desk: Desk, hands: Hands) {
    this.#desk = desk;
    this.#hands = hands;
    this.#stop = stopCost(desk.shop);
    this.#odds = new Map(toldBelief(desk, hands.events).modes.map(({ mode, p }) => [mode, p]));
    const [{ machine, modes }] = desk.case.candidates;
    this.places = placesOf(machine, modes)
      .filter((place) => this.oddsOf(place) > 0)
      .sort((a, b) => this.oddsOf(b) - this.oddsOf(a) || (a.id < b.id ? -1 : 1));
  }

  /** Odds that a place is at fault, by all that is known so far. */
  oddsOf({ modes }: RepairPlace): number {
    return modes.reduce((sum, { id }) => sum + (this.#odds.get(id) ?? 0), 0) / this.#whole;
  }

  /** Money that the best remedy would save if the place were at fault for sure. */
  savedAt(place: RepairPlace): number {
    return Math.max(0, this.#best(place, 1 / Math.max(this.oddsOf(place), 1e-9))?.saves ?? 0);
  }

  /** Is the best remedy of a place worth trying at the odds as they stand? */
  isWorthMending(place: RepairPlace): boolean {
    return (this.#best(place, 1)?.saves ?? 0) > 0;
  }

  /** Mends a place by the remedy that saves the most, and proves it. */
  mend(place: RepairPlace): boolean {
    const best = this.#best(place, 1);
    if (best === undefined) return false;
    const { course } = best;
    const times = this.#note(course);
    this.#hands.mend(course, place.access);
    this.#askWhy(course);
    if (prove(this.#desk, this.#hands)) return true;
    const cures = (mode: RepairPlace["modes"][number]): number => {
      const met = repairsOf(this.#desk, mode).find(({ id }) => id === course.id);
      return met === undefined ? 0 : (again(met, times)?.cured ?? 0);
    };
    this.#scale(place, (mode) => 1 - cures(mode));
    return false;
  }

  /** Mends on the chance, the likeliest place first, until it works or no remedy left is worth its price. */
  mendOnTheChance(): History {
    for (;;) {
      const [place] = this.places
        .filter((one) => this.isWorthMending(one))
        .sort((a, b) => this.oddsOf(b) - this.oddsOf(a));
      if (place === undefined) return this.#hands.end("stopped");
      if (this.mend(place)) return this.mended();
    }
  }

  /** A place passed its usual test, or failed it. */
  tested(place: RepairPlace, bad: boolean): void {
    const p = this.oddsOf(place);
    const hit = bad ? 1 - MISSED : MISSED;
    const other = bad ? FALSE_ALARM : 1 - FALSE_ALARM;
    const now = (p * hit) / (p * hit + (1 - p) * other);
    // Scaled so that this place has its new odds, and all the rest keep theirs among themselves.
    if (p > 0 && p < 1) this.#scale(place, () => (now * (1 - p)) / ((1 - now) * p));
  }

  mended(): History {
    return this.#hands.end("mended");
  }

  #scale(place: RepairPlace, by: (mode: RepairPlace["modes"][number]) => number): void {
    for (const mode of place.modes) {
      const before = this.#odds.get(mode.id) ?? 0;
      const after = before * by(mode);
      this.#odds.set(mode.id, after);
      this.#whole += after - before;
    }
  }

  /** Writes down that a remedy is done; gives how often it was done before. */
  #note({ id }: Course): number {
    const times = this.#done.get(id) ?? 0;
    this.#done.set(id, times + 1);
    return times;
  }

  /** The remedy, of those that may still cure, that saves the most, with the odds of the place times `surer`. */
  #best(place: RepairPlace, surer: number): { readonly course: Course; readonly saves: number } | undefined {
    const { shop } = this.#desk;
    const hope = new Map<string, { course: Course; p: number }>();
    for (const mode of place.modes) {
      for (const known of repairsOf(this.#desk, mode)) {
        const course = again(known, this.#done.get(known.id) ?? 0);
        if (course === undefined) continue;
        const before = hope.get(course.id)?.p ?? 0;
        hope.set(course.id, { course, p: before + ((this.#odds.get(mode.id) ?? 0) / this.#whole) * course.cured });
      }
    }
    const going = minutesTo(this.#desk, this.#hands, place) + shop.minutes.verify;
    return [...hope.values()]
      .map(({ course, p }) => ({
        course,
        saves:
          Math.min(1, p * surer) * this.#stop -
          priceOf(course.minutes + going, shop) -
          course.price -
          (course.fetched ? shop.secondVisit : 0),
      }))
      .sort((a, b) => b.saves - a.saves || (a.course.id < b.course.id ? -1 : 1))[0];
  }

  /** A protector was fitted or reset: the likely reasons are tested, and the one that is found is mended. */
  #askWhy({ on }: Course): void {
    const reasons = this.#desk.machine.whyOpen.get(on);
    const likely = [...(reasons ?? [])].filter(([, share]) => share >= LIKELY_REASON).sort((a, b) => b[1] - a[1]);
    for (const [reason] of likely) {
      const place = this.places.find(({ modes }) => modes.some(({ id }) => matchesName(reason, id)));
      if (place === undefined) continue;
      const test = usualTest(this.#desk, place);
      if (test.minutes === 0 || !isBad(this.#desk, this.#hands, place, test)) continue;
      const best = this.#best(place, 1 / Math.max(this.oddsOf(place), 1e-9));
      if (best === undefined) continue;
      this.#note(best.course);
      this.#hands.mend(best.course, place.access);
      this.#hands.why(on, reason);
      return;
    }
  }
}

/** Belief from the customer's words alone; kept by the case for as long as its observations are. */
function toldBelief(desk: Desk, events: readonly JobEvent[]): Belief {
  const told = events.filter(({ kind }) => kind === "told");
  const key = JSON.stringify(told.map((event) => (event.kind === "told" ? event.answers : [])));
  const known = kept.get(desk) ?? new Map<string, Belief>();
  kept.set(desk, known);
  const belief =
    known.get(key) ?? desk.case.update(foldOf(desk, told).observations.map(({ observation }) => observation));
  known.set(key, belief);
  return belief;
}

const kept = new WeakMap<Desk, Map<string, Belief>>();
