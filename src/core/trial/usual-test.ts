import { displayed, limitOf, type Meter, pickRange, quantityOf } from "../meter/index.ts";
import { accessChain, instrumentFor } from "../plan/index.ts";
import { type Prediction, probeOf } from "../predict/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Hands } from "./hands.ts";
import type { RepairPlace } from "./repairs.ts";
import type { Desk } from "./technician.ts";

/** Least capacitance that is worth a reading of its own. */
const LEAST_FARADS = 0.1e-6;
/** A reading farther from the good one than so many standard deviations is bad. */
const TOO_FAR = 3;

type ReadingAsked = Extract<Observation, { kind: "reading" }>;

/** The usual test of a part or cause: a look where it shows, a reading at its terminals with one wire off, or nothing. */
export interface UsualTest {
  readonly looks: boolean;
  readonly readings: readonly ReadingAsked[];
  /** Minutes at the place itself; 0: there is no test. */
  readonly minutes: number;
}

export function usualTest(desk: Desk, place: RepairPlace): UsualTest {
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

/** Takes the test: bad is what looks bad, or reads otherwise than a good one would. */
export function isBad(desk: Desk, hands: Hands, place: RepairPlace, test: UsualTest): boolean {
  if (place.access === undefined) hands.isolate();
  else hands.open(place.access);
  if (test.looks && hands.look(place.id) === "bad") return true;
  const [foresight] = desk.case.foresights;
  return hands
    .measure(test.readings)
    .some(({ probe, meter, shown }) => !readsGood(shown, meter, probe, foresight.shows(probe, meter.inputOhms, [])));
}

/** Minutes to come to a place, and to close it again, past the covers that are open already. */
export function minutesTo({ machine }: Desk, hands: Hands, { access }: RepairPlace): number {
  if (access === undefined) return 0;
  const groups = new Map(machine.access.map((group) => [group.id, group]));
  return accessChain(access, groups)
    .filter(({ id }) => !hands.isOpen(id))
    .reduce((sum, { openMinutes, closeMinutes }) => sum + openMinutes + closeMinutes, 0);
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
