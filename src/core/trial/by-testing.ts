import { displayed, limitOf, type Meter, pickRange, quantityOf } from "../meter/index.ts";
import { instrumentFor } from "../plan/index.ts";
import { type Prediction, probeOf } from "../predict/index.ts";
import { priceOf, stopCost } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import { likeliest, surest, toldBelief } from "./by-swapping.ts";
import type { Hands } from "./hands.ts";
import type { RepairPlace } from "./repairs.ts";
import { type Desk, prove, type Technician } from "./technician.ts";

/** What is less likely than this is not gone to (from memory). */
const LEAST_HOPE = 0.004;
/** Without a test, a part is swapped on the chance only from these odds (from memory). */
const ON_THE_CHANCE = 0.02;
/** Least capacitance that is worth a reading of its own. */
const LEAST_FARADS = 0.1e-6;
/** A reading farther from the good one than so many standard deviations is bad. */
const TOO_FAR = 3;

type ReadingAsked = Extract<Observation, { kind: "reading" }>;

/** The usual test of a part or cause: a look where it shows, a reading at its terminals with one wire off, or nothing. */
interface UsualTest {
  readonly looks: boolean;
  readonly readings: readonly ReadingAsked[];
  readonly minutes: number;
}

/**
 * A careful technician without a plan: parts and causes in a fixed order by odds over price of the test, each with its usual
 * test before anything is done to it; what has no test is swapped on the chance at the end, the likeliest first.
 */
export const byTesting: Technician = (desk, hands) => {
  const belief = toldBelief(desk, hands.events);
  const suspects = likeliest(desk, hands.events).filter(({ p }) => p >= LEAST_HOPE);
  const withTest = suspects.map((suspect) => ({ ...suspect, test: usualTest(desk, suspect.place) }));
  const order = withTest
    .filter(({ test }) => test.minutes > 0)
    .map((one) => ({ ...one, rank: one.p / (one.test.minutes + openingMinutes(desk.machine, one.place.access)) }))
    .sort((a, b) => b.rank - a.rank || (a.place.id < b.place.id ? -1 : 1));
  const untested = withTest.filter(({ test, p }) => test.minutes === 0 && p >= ON_THE_CHANCE);
  let spent = 0;
  const mends = (place: RepairPlace): boolean => {
    const course = surest(desk, place, belief);
    if (course === undefined) return false;
    const cost = priceOf(course.minutes, desk.shop) + course.price + (course.fetched ? desk.shop.secondVisit : 0);
    if (spent + cost > stopCost(desk.shop)) return false;
    spent += cost;
    hands.mend(course, place.access);
    return prove(desk, hands);
  };
  for (const { place, test } of order) {
    if (isBad(desk, hands, place, test) && mends(place)) return hands.end("mended");
  }
  for (const { place } of untested) if (mends(place)) return hands.end("mended");
  return hands.end("stopped");
};

function usualTest(desk: Desk, place: RepairPlace): UsualTest {
  const { machine, shop } = desk;
  const cause = machine.causes.find(({ id }) => id === place.id);
  if (cause !== undefined) {
    const looks = cause.look !== undefined;
    const readings = looks ? [] : cause.measures.slice(0, 1).map((measure) => causeReading(desk, cause.id, measure));
    const minutes = cause.look?.minutes ?? cause.measures[0]?.minutes ?? 0;
    return { looks, readings, minutes };
  }
  const part = machine.parts.find(({ id }) => id === place.id);
  const looks = place.modes.some(({ seen, looks: words }) => seen !== undefined || words !== undefined);
  // Inside an assembly no tip reaches before it is taken apart; a joint is looked at.
  const reached = part !== undefined && part.of === undefined && part.joint === undefined;
  const readings = reached ? partReadings(desk, part.id) : [];
  const minutes =
    (looks ? shop.minutes.look : 0) +
    (readings.length > 0 ? shop.minutes.freePart + readings.length * shop.minutes.reading : 0);
  return { looks, readings, minutes };
}

/** Ohms from the first pin of a part to each other, one wire off; farads where it is a capacitor. */
function partReadings({ machine, shop, meters }: Desk, id: string): readonly ReadingAsked[] {
  const part = machine.parts.find((one) => one.id === id);
  const points = [...(part?.pins.keys() ?? [])].filter((pin) => machine.points.some((p) => p.id === `${id}.${pin}`));
  const [first, ...others] = points;
  const charged = machine.elements.some(
    ({ part: owner, what, values }) =>
      machine.parts[owner].id === id && what === "C" && values[0].nominal >= LEAST_FARADS,
  );
  const quantity = charged ? "farads" : "ohms";
  return others.map((pin) => ({
    kind: "reading",
    probe: probeOf({
      quantity,
      from: `${id}.${first}`,
      to: `${id}.${pin}`,
      state: { kind: "dead", pulled: [], freed: [id], hands: new Map() },
    }),
    meter: instrumentFor(quantity, shop.bag, meters),
    leads: "nulled",
    shown: { kind: "over limit" },
  }));
}

function causeReading(
  { shop, meters }: Desk,
  cause: string,
  measure: Machine["causes"][number]["measures"][number],
): ReadingAsked {
  const quantity = quantityOf(measure.unit);
  return {
    kind: "reading",
    probe: probeOf({
      quantity,
      measure: { cause, id: measure.id },
      state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
    }),
    meter: instrumentFor(quantity, shop.bag, meters),
    leads: "nulled",
    shown: { kind: "over limit" },
  };
}

/** Takes the test: bad is what looks bad, or reads otherwise than a good one would. */
function isBad(desk: Desk, hands: Hands, place: RepairPlace, test: UsualTest): boolean {
  hands.open(place.access);
  hands.isolate();
  if (test.looks && hands.look(place.id) === "bad") return true;
  const [foresight] = desk.case.foresights;
  return hands
    .measure(test.readings)
    .some(({ probe, meter, shown }) => !readsGood(shown, meter, probe, foresight.shows(probe, meter.inputOhms, [])));
}

function readsGood(
  shown: ReadingAsked["shown"],
  meter: Meter,
  { quantity }: ReadingAsked["probe"],
  good: Prediction,
): boolean {
  return good.terms.some((term) => {
    if (term.kind === "open") return shown.kind === "over limit";
    const range = pickRange(meter, quantity, term.mean);
    if (range === undefined) return shown.kind === "over limit";
    if (shown.kind !== "value") return false;
    const u = Math.hypot(term.sigma, limitOf(range, term.mean) / Math.sqrt(3), meter.nulledOhms);
    return Math.abs(shown.value - displayed(range, term.mean)) <= TOO_FAR * u + range.resolution;
  });
}

function openingMinutes(machine: Machine, access: string | undefined): number {
  let minutes = 0;
  for (let id = access; id !== undefined; ) {
    const group = machine.access.find((one) => one.id === id);
    minutes += (group?.openMinutes ?? 0) + (group?.closeMinutes ?? 0);
    id = group?.after;
  }
  return minutes;
}
