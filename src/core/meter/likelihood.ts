import { logAdd, logNormalBand, logNormalCdf, logNormalSf } from "../chance/index.ts";
import { leadsOf } from "./leads.ts";
import type { Leads, Meter, MeterRange, Quantity, Shown } from "./meter.ts";
import { pickUpOf } from "./pick-up.ts";
import { measured } from "./quantity-unit.ts";
import { limitOf, pickRange, topOf } from "./range.ts";
import type { Term } from "./term.ts";
import { meanOver, wordCurve } from "./words.ts";

/** Log chance of one reading, for any number of predicted values. */
export interface ReadingChance {
  /** ln P(shown | true value normal with this mean and standard deviation); an infinite mean is an open path. */
  ofValue(mean: number, sigma: number): number;
  /** ln P(shown | no path at all). */
  readonly ofOpen: number;
}

/** A reading that can be weighed by itself; a count of operations needs the whole mixture (`binomialLogPmf`). */
export type SingleShown = Exclude<Shown, { readonly kind: "count" }>;

export interface ReadingSetUp {
  readonly meter: Meter;
  readonly quantity: Quantity;
  readonly leads: Leads;
  /** What a good machine would show, against which "good" and "low" are said. */
  readonly expected?: Term;
}

/**
 * Chance that a finite value is shown of a path that is open: fingers on both probes, damp, somewhere above 100 kΩ.
 * From memory.
 */
const strayPath = 0.02;
const strayFromOhms = 1e5;
/** Log chance of what cannot be: a plain value of an open path. Finite, so that a slip can still explain it. */
const impossible = -700;

/**
 * Everything about one reading that does not depend on the hypothesis, worked out once. The chance of a value is the mass that
 * falls into its last digit, so that it compares with the chance of OL and of a word.
 *
 * Meter error is the promised band over √3, combined with the lead ohms and the spread of the prediction; normal. Of live
 * volts some are spread by what the leads pick up.
 * @source GUM 4.3.7, 5.1.2
 */
export function prepareReading(shown: SingleShown, setUp: ReadingSetUp): ReadingChance {
  const clean = cleanChance(shown, setUp);
  const pickUp = pickUpOf(setUp.quantity);
  if (pickUp === undefined) return clean;
  const logOften = Math.log(pickUp.often);
  const logSeldom = Math.log1p(-pickUp.often);
  const ofValue = (mean: number, sigma: number): number =>
    logAdd(
      logSeldom + clean.ofValue(mean, sigma),
      logOften + clean.ofValue(mean, Math.sqrt(sigma * sigma + pickUp.sigma ** 2)),
    );
  return { ofValue, ofOpen: measured(setUp.quantity).openIsOverLimit ? clean.ofOpen : ofValue(0, 0) };
}

function cleanChance(shown: SingleShown, setUp: ReadingSetUp): ReadingChance {
  if (shown.kind === "word") return wordChance(shown.word, setUp);
  return shown.kind === "value" ? valueChance(shown, setUp) : overLimitChance(shown.top, setUp);
}

/** One-off form of `prepareReading`. */
export function logChanceShown(shown: SingleShown, term: Term, setUp: ReadingSetUp): number {
  const chance = prepareReading(shown, setUp);
  return term.kind === "open" ? chance.ofOpen : chance.ofValue(term.mean, term.sigma);
}

function valueChance(shown: { readonly value: number; readonly step?: number }, setUp: ReadingSetUp): ReadingChance {
  const { meter, quantity } = setUp;
  const range = pickRange(meter, quantity, shown.value) ?? roughRange(quantity, shown);
  const lead = leadsOf(meter, quantity, setUp.leads);
  const variance = limitOf(range, shown.value) ** 2 / 3 + lead.u ** 2;
  const width = Math.max(range.resolution, shown.step ?? 0);
  const floor = range.floor;
  const belowFloor = floor !== undefined && Math.abs(shown.value) < floor;
  const y = shown.value - lead.ohms;
  const openIsOverLimit = measured(quantity).openIsOverLimit;
  const ofFinite = (mean: number, sigma: number): number => {
    const s = Math.sqrt(sigma * sigma + variance);
    return belowFloor ? logNormalCdf((floor - mean) / s) : logNormalBand((y - mean) / s, width / s);
  };
  const ofOpen = openIsOverLimit ? strayValue(shown.value, width, topOf(meter, quantity)) : ofFinite(0, 0);
  const ofValue = (mean: number, sigma: number): number => {
    if (!Number.isFinite(mean)) return ofOpen;
    const chance = ofFinite(mean, sigma);
    // fingers lower a high path as they lower an open one
    return openIsOverLimit && mean > shown.value && chance < ofOpen ? ofOpen : chance;
  };
  return { ofOpen, ofValue };
}

function overLimitChance(shownTop: number | undefined, setUp: ReadingSetUp): ReadingChance {
  const { meter, quantity } = setUp;
  const top = shownTop ?? topOf(meter, quantity);
  const range = pickRange(meter, quantity, top);
  const lead = leadsOf(meter, quantity, setUp.leads);
  const variance = (range === undefined ? (0.05 * top) ** 2 : limitOf(range, top) ** 2) / 3 + lead.u ** 2;
  const open = measured(quantity).openIsOverLimit;
  const ofFinite = (mean: number, sigma: number): number => {
    if (top === Number.POSITIVE_INFINITY) return impossible;
    return logNormalSf((top - lead.ohms - mean) / Math.sqrt(sigma * sigma + variance));
  };
  const ofOpen = open ? Math.log1p(-strayPath) : ofFinite(0, 0);
  return { ofOpen, ofValue: (mean, sigma) => (Number.isFinite(mean) ? ofFinite(mean, sigma) : ofOpen) };
}

function wordChance(word: Extract<SingleShown, { kind: "word" }>["word"], setUp: ReadingSetUp): ReadingChance {
  const { meter, quantity } = setUp;
  const curve = wordCurve(word, meter, quantity, setUp.expected);
  const lead = leadsOf(meter, quantity, setUp.leads);
  const ofOpen = Math.log(curve(measured(quantity).openIsOverLimit ? Number.POSITIVE_INFINITY : 0));
  return {
    ofOpen,
    ofValue: (mean, sigma) => (Number.isFinite(mean) ? Math.log(meanOver(curve, mean + lead.ohms, sigma)) : ofOpen),
  };
}

/** A value shown of an open path: spread evenly over the decades from 100 kΩ to the top of the meter. */
function strayValue(value: number, width: number, top: number): number {
  if (!(value > strayFromOhms) || !(top > strayFromOhms)) return impossible;
  const decades = Math.log(Math.min(top, 1e10) / strayFromOhms);
  return Math.log((strayPath * width) / (value * decades));
}

/** For what this meter has no range for (a stopwatch, a jug): one part in twenty, and the last digit written. From memory. */
function roughRange(quantity: Quantity, shown: { readonly value: number; readonly step?: number }): MeterRange {
  const resolution = shown.step ?? Math.max(1e-12, 0.01 * Math.abs(shown.value));
  return { quantity, top: Number.POSITIVE_INFINITY, resolution, shareOfReading: 0.05, counts: 1 };
}
