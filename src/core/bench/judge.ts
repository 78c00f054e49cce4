import { conformity, type Leads, type Meter, readingEstimate, type Shown, type Verdict } from "../meter/index.ts";
import { proveByOperations } from "../proof/index.ts";
import { add, type Estimate, estimate, type Limits } from "../quantity/index.ts";
import type { BenchStep } from "./bench-test.ts";

/** What came of one bench step. */
export interface BenchResult {
  /** What the meter showed; of repeated operations the worst. */
  readonly shown?: Shown;
  readonly meter?: Meter;
  readonly leads?: Leads;
  /** What the person says of a look, or of a test no meter judges. */
  readonly found?: "good" | "bad";
  /** So many operations of so many were good. */
  readonly tally?: { readonly good: number; readonly of: number };
}

export interface BenchVerdict {
  /** "cannot fault it": within the limits as read, by a meter too coarse to prove it whatever it had shown. */
  readonly says: Verdict["says"] | "cannot fault it" | "go on";
  /** Chance that the true value lies within the limits, where a reading was judged. */
  readonly probability?: number;
  /** After the operations that were tried: at most this share fails, 95 % sure. */
  readonly failsAtMost?: number;
  /** Operations that are still to be tried. */
  readonly more?: number;
}

const SURE = 0.95;
/** A thermometer beside the part tells its temperature so well, in kelvin either way (common practice, no source). */
const CELSIUS_LIMIT = 1;

/**
 * Judges one step: a reading by its probability of conformity, repeated operations by their count, a look by the
 * person's word. The worst of them counts.
 *
 * @source JCGM 106:2012, 7.2 to 7.4 (reading); Clopper & Pearson 1934 (operations)
 */
export function judgeStep(step: BenchStep, result: BenchResult): BenchVerdict | undefined {
  const verdicts = [
    ...(result.found === undefined ? [] : [{ says: result.found }]),
    ...(step.reading === undefined || result.shown === undefined ? [] : [judgeReading(step.reading, result)]),
    ...(result.tally === undefined ? [] : [judgeTally(result.tally, step.repeat ?? 1)]),
  ];
  if (verdicts.length === 0) return undefined;
  if (step.repeat !== undefined && result.tally === undefined && verdicts.every(({ says }) => says !== "bad"))
    verdicts.push({ says: "go on", more: step.repeat });
  const says = WORST_FIRST.find((word) => verdicts.some((verdict) => verdict.says === word)) ?? "too close to say";
  return { ...Object.assign({}, ...verdicts), says };
}

const WORST_FIRST: readonly BenchVerdict["says"][] = ["bad", "too close to say", "go on", "cannot fault it", "good"];

function judgeReading(reading: NonNullable<BenchStep["reading"]>, result: BenchResult): BenchVerdict {
  const { limits, quantity } = reading;
  const { shown, meter, leads } = result;
  if (shown === undefined || meter === undefined) return UNSURE;
  switch (shown.kind) {
    case "value": {
      // Where OL is asked for, any value at all is a path.
      if (!Number.isFinite(limits.lo) && limits.lo > 0) return { says: "bad", probability: 0 };
      const read = estimateOf(reading, shown.value, meter, leads);
      if (read === undefined) return UNSURE;
      const verdict = conformity(read, limits, SURE);
      const isWithin = shown.value >= limits.lo && shown.value <= limits.hi;
      if (verdict.says === "too close to say" && isWithin && isTooCoarse(reading, meter, leads))
        return { ...verdict, says: "cannot fault it" };
      return verdict;
    }
    case "over limit":
      return aboveTop(limits, shown.top ?? topOf(meter, quantity));
    case "word":
      return byWord(limits, shown.word, meter);
    case "count":
      return UNSURE;
  }
}

/** Would this meter leave it open even if it showed nothing at all, or the very middle of the limits? */
function isTooCoarse(reading: NonNullable<BenchStep["reading"]>, meter: Meter, leads?: Leads): boolean {
  const { lo, hi } = reading.limits;
  const best = Number.isFinite(lo) ? (Number.isFinite(hi) ? (lo + hi) / 2 : Number.POSITIVE_INFINITY) : 0;
  const read = estimateOf(reading, best, meter, leads);
  return read !== undefined && conformity(read, reading.limits, SURE).says !== "good";
}

/** The true value behind a reading; where its limits move with temperature, how well that is known spreads it too. */
function estimateOf(
  { quantity, perKelvin }: NonNullable<BenchStep["reading"]>,
  value: number,
  meter: Meter,
  leads?: Leads,
): Estimate | undefined {
  const read = readingEstimate(meter, quantity, value, leads);
  if (read === undefined || perKelvin === undefined) return read;
  return add(read, estimate(0, { "the part's temperature": value * perKelvin * (CELSIUS_LIMIT / Math.sqrt(3)) }));
}

const UNSURE: BenchVerdict = { says: "too close to say" };

/** OL says that the true value lies above the top of the range, and no more. */
function aboveTop({ lo, hi }: Limits, top: number): BenchVerdict {
  if (hi <= top) return { says: "bad", probability: 0 };
  return hi === Number.POSITIVE_INFINITY && (lo <= top || lo === hi) ? { says: "good", probability: 1 } : UNSURE;
}

/** A beep is a reading below a threshold that lies somewhere; other words are no reading. */
function byWord({ lo, hi }: Limits, word: string, { beeperOhms }: Meter): BenchVerdict {
  if (beeperOhms === undefined) return UNSURE;
  if (word === "beeps") {
    if (lo > beeperOhms.hi) return { says: "bad" };
    return lo <= 0 && beeperOhms.hi <= hi ? { says: "good" } : UNSURE;
  }
  if (word === "no beep") return hi < beeperOhms.lo ? { says: "bad" } : UNSURE;
  return UNSURE;
}

function topOf(meter: Meter, quantity: NonNullable<BenchStep["reading"]>["quantity"]): number {
  return Math.max(0, ...meter.ranges.filter((range) => range.quantity === quantity).map(({ top }) => top));
}

/** One failed operation is one too many: a part is not put on a shelf with "19 good of 20". */
function judgeTally({ good, of }: { readonly good: number; readonly of: number }, asked: number): BenchVerdict {
  const { says, failsAtMost, more } = proveByOperations(good, of, { allGoodOf: Math.max(1, asked) });
  if (says === "not mended") return { says: "bad" };
  return {
    says: says === "enough" ? "good" : "go on",
    ...(of === 0 ? {} : { failsAtMost }),
    ...(more === undefined ? {} : { more }),
  };
}
