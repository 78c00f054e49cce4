import { type Meter, measured, prepareReading, type ReadingChance, type SingleShown, topOf } from "../meter/index.ts";
import type { Fault, Prediction, Probe } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Foresight } from "./foresight.ts";
import type { Judge } from "./hypothesis-chance.ts";
import { bandChances, type Partition } from "./partition.ts";

export type ReadingSeen = Extract<Observation, { kind: "reading" }>;

/** Chance that a reading is not of what it says: wrong point, bad clip, wrong range (from memory). */
export const SLIP = 0.02;
/** Chance that a bad thing reads as a good one: its good neighbour was read, or a path beside it (from memory). */
const FALSE_PASS = 0.01;
/** A reading at a point that a variant does not have speaks against the variant (from memory). */
const NO_SUCH_POINT = 0.05;
/** Copper gains 0.39 % a kelvin, heater wire next to nothing; a hot part of unknown stuff lies between. */
const WARMTH_SHARE = 0.00393 / 2;
const ROOM_DEGREES = 20;

/** The one reading that was taken. */
export function judgeReading(foresight: Foresight, seen: ReadingSeen, shown: SingleShown): Judge<Prediction> {
  const { probe, meter, leads } = seen;
  const quantity = probe.quantity;
  if (!foresight.has(probe)) {
    const anywhere = anythingOf(prepareReading(shown, { meter, quantity, leads }), probe, meter);
    return unknowable(Float64Array.of(anywhere * NO_SUCH_POINT));
  }
  const good = foresight.shows(probe, meter.inputOhms, []);
  const [first] = good.terms;
  const chance = prepareReading(shown, {
    meter,
    quantity,
    leads,
    ...(good.terms.length === 1 ? { expected: first } : {}),
  });
  const anything = anythingOf(chance, probe, meter);
  const warmth = Math.abs((seen.degrees ?? ROOM_DEGREES) - ROOM_DEGREES) * WARMTH_SHARE;
  const otherwise = SLIP * anything + FALSE_PASS * chanceOf(chance, good, warmth);
  return {
    ...readingJudge(foresight, probe, meter.inputOhms),
    chances: (prediction) =>
      Float64Array.of((1 - SLIP - FALSE_PASS) * chanceOf(chance, prediction, warmth) + otherwise),
    anything: Float64Array.of(anything),
  };
}

/** The bands that a reading may fall into. */
export function judgeBands(
  foresight: Foresight,
  { probe, meter }: ReadingSeen,
  partition: Partition,
): Judge<Prediction> {
  const anything = bandChances(partition, { terms: anywhere(probe, meter) });
  if (!foresight.has(probe)) return unknowable(anything);
  const good = bandChances(partition, foresight.shows(probe, meter.inputOhms, []));
  const otherwise = anything.map((chance, o) => SLIP * chance + FALSE_PASS * good[o]);
  return {
    ...readingJudge(foresight, probe, meter.inputOhms),
    anything,
    chances: (prediction) => {
      const chances = bandChances(partition, prediction);
      for (let o = 0; o < chances.length; o++) chances[o] = (1 - SLIP - FALSE_PASS) * chances[o] + otherwise[o];
      return chances;
    },
  };
}

/** What all judges of one probe share. */
export function readingJudge(
  foresight: Foresight,
  probe: Probe,
  inputOhms: number,
): Pick<Judge<Prediction>, "foresee" | "same" | "costs"> {
  return {
    foresee: (fault: Fault) => foresight.shows(probe, inputOhms, fault),
    same: samePrediction,
    costs: probe.measure !== undefined ? "nothing" : foresight.isQuick(probe) ? "a solve" : "a run",
  };
}

/** A judge that gives the same chances whatever is wrong. */
export function unknowable(chances: Float64Array): Judge<Prediction> {
  const nothing: Prediction = { terms: [] };
  return { foresee: () => nothing, same: () => true, chances: () => chances, anything: chances, costs: "nothing" };
}

function chanceOf(chance: ReadingChance, { terms }: Prediction, warmth: number): number {
  let sum = 0;
  for (const term of terms) {
    if (term.kind === "open") {
      sum += term.weight * Math.exp(chance.ofOpen);
      continue;
    }
    const mean = term.mean * (1 + warmth);
    const sigma = Math.hypot(term.sigma, term.mean * warmth);
    sum += term.weight * Math.exp(chance.ofValue(mean, sigma));
  }
  return sum;
}

/** Chance of a reading at a point nobody meant: nothing there in three cases of ten, else anywhere on the scale (from memory). */
function anythingOf(chance: ReadingChance, probe: Probe, meter: Meter): number {
  const terms = anywhere(probe, meter);
  return chanceOf(chance, { terms }, 0);
}

/** A broad prediction for what the sheet does not know: OL or zero, or anywhere on a scale in even steps of its log. */
export function anywhere({ quantity }: Probe, meter: Meter): Prediction["terms"] {
  const { from, to } = SCALES[quantity] ?? { from: 0.1, to: Math.min(topOf(meter, quantity), 1000) };
  const step = Math.log(to / from) / GRID;
  return [
    measured(quantity).openIsOverLimit
      ? { kind: "open", weight: 0.3 }
      : { kind: "value", weight: 0.3, mean: 0, sigma: from },
    ...Array.from({ length: GRID }, (_, i) => {
      const mean = from * Math.exp((i + 0.5) * step);
      return { kind: "value" as const, weight: 0.7 / GRID, mean, sigma: 0.7 * step * mean };
    }),
  ];
}

const GRID = 40;
/** Where a reading of each quantity may lie at all, base units (from memory). */
const SCALES: Readonly<Partial<Record<Probe["quantity"], { from: number; to: number }>>> = {
  ohms: { from: 0.05, to: 2e7 },
  "insulation ohms": { from: 1e3, to: 1e10 },
  volts: { from: 1, to: 420 },
  "volts dc": { from: 0.1, to: 400 },
  amps: { from: 0.01, to: 20 },
  watts: { from: 0.5, to: 4000 },
  "leakage amps": { from: 1e-5, to: 0.1 },
  farads: { from: 1e-9, to: 1e-4 },
};

/** Do two predictions differ by less than anybody would read? */
export function samePrediction(a: Prediction, b: Prediction): boolean {
  if (a === b) return true;
  if (a.terms.length !== b.terms.length) return false;
  return a.terms.every((term, i) => {
    const other = b.terms[i];
    if (Math.abs(term.weight - other.weight) > 1e-3) return false;
    if (term.kind === "open" || other.kind === "open") return term.kind === other.kind;
    const close = 1e-3 * Math.abs(term.mean) + 0.05 * term.sigma + 1e-12;
    return Math.abs(term.mean - other.mean) <= close && Math.abs(term.sigma - other.sigma) <= close + 0.2 * term.sigma;
  });
}
