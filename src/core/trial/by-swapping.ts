import type { Course } from "../remedy/index.ts";
import { priceOf, stopCost } from "../remedy/index.ts";
import type { Belief } from "../suspect/index.ts";
import { placesOf, type RepairPlace, repairsOf } from "./repairs.ts";
import { type Desk, foldOf, prove, type Technician } from "./technician.ts";

/** What is less likely than this is not swapped on the chance (from memory). */
const LEAST_HOPE = 0.02;

/**
 * Swaps the likeliest part first: by the odds given what was told, the surest remedy of each part or cause in turn, proved
 * by watching; gives up when the next would bring the bill above what is lost by stopping.
 */
export const bySwapping: Technician = (desk, hands) => {
  let spent = 0;
  for (const { place, p } of likeliest(desk, hands.events)) {
    if (p < LEAST_HOPE) break;
    const course = surest(desk, place, toldBelief(desk, hands.events));
    if (course === undefined) continue;
    const cost = priceOf(course.minutes, desk.shop) + course.price + (course.fetched ? desk.shop.secondVisit : 0);
    if (spent + cost > stopCost(desk.shop)) continue;
    spent += cost + priceOf(desk.shop.minutes.verify, desk.shop);
    hands.mend(course, place.access);
    if (prove(desk, hands)) return hands.end("mended");
  }
  return hands.end("stopped");
};

/** Places by their odds given what was told before anything was touched, the likeliest first. */
export function likeliest(
  desk: Desk,
  events: Parameters<typeof toldBelief>[1],
): readonly { readonly place: RepairPlace; readonly p: number }[] {
  const odds = new Map(toldBelief(desk, events).modes.map(({ mode, p }) => [mode, p]));
  const [{ machine, modes }] = desk.case.candidates;
  return placesOf(machine, modes)
    .map((place) => ({ place, p: place.modes.reduce((sum, mode) => sum + (odds.get(mode.id) ?? 0), 0) }))
    .filter(({ p }) => p > 0)
    .sort((a, b) => b.p - a.p || (a.place.id < b.place.id ? -1 : 1));
}

/** The remedy of a place that cures the most of what may be wrong there; of equals the cheapest. */
export function surest(desk: Desk, place: RepairPlace, belief: Belief): Course | undefined {
  const odds = new Map(belief.modes.map(({ mode, p }) => [mode, p]));
  const hope = new Map<string, { course: Course; p: number }>();
  for (const mode of place.modes) {
    for (const course of repairsOf(desk, mode)) {
      const known = hope.get(course.id)?.p ?? 0;
      hope.set(course.id, { course, p: known + (odds.get(mode.id) ?? 0) * course.cured });
    }
  }
  return [...hope.values()].sort((a, b) => b.p - a.p || a.course.cost - b.course.cost)[0]?.course;
}

/** Belief from the customer's words alone; kept by the case for as long as its observations are. */
export function toldBelief(desk: Desk, events: Parameters<typeof foldOf>[1]): Belief {
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
