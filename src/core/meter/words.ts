import { gaussHermite, normalCdf } from "../chance/index.ts";
import type { Meter, Quantity, Word } from "./meter.ts";
import { measured } from "./quantity-unit.ts";
import type { Term } from "./term.ts";

/*
 * How likely a technician is to use a word for what a meter shows. All figures here are from memory and wide on purpose: a word
 * moves the odds by no more than a factor of twenty or so, and the number is worth asking for when that is not enough.
 */

/** No path, on the axis of ohms: more than any path that a word would be used for. */
const asOpen = 1e9;
/** A path above this is "nothing" to a person with a meter in hand. */
const hardlyAPath = 5e6;
/** "Good" is said of what lies within a factor of about 1.4 of what was expected (one standard deviation). */
const goodWidth = 0.35;
/** A word is sometimes said of the wrong thing: no chance is below this one or above its complement. */
const slack = 0.02;

/** Below about this much, a quantity counts as nothing. */
const notable: Readonly<Partial<Record<Quantity, number>>> = {
  ohms: 0.3,
  "insulation ohms": 1e5,
  volts: 20,
  "volts dc": 1,
  amps: 0.05,
  "leakage amps": 1e-4,
  watts: 5,
  farads: 1e-8,
};

/** Beepers sound below a threshold that differs from meter to meter.
 * @source six meters' handbooks: 35, 40, 50, 50, 70 and 100 Ω */
const anyBeeper = { lo: 35, hi: 100 };

type Curve = (x: number) => number;

/** Chance of the word at each true value; no path is Infinity where the quantity is one of ohms, else 0. */
export function wordCurve(word: Word, meter: Meter, quantity: Quantity, expected: Term | undefined): Curve {
  const inOhms = measured(quantity).openIsOverLimit;
  const least = notable[quantity] ?? 1e-9;
  const size = (x: number): number => (inOhms ? Math.min(Math.abs(x), asOpen) : Math.abs(x));
  const wanted = expected === undefined ? undefined : size(meanOf(expected));
  const path: Curve = (x) => 1 / (1 + x / hardlyAPath);
  const present: Curve = (x) => (x * x) / (x * x + least * least);
  const like: Curve = (x) =>
    wanted === undefined
      ? unasked(quantity, x, least)
      : Math.exp(-0.5 * (Math.log((x + least) / (wanted + least)) / goodWidth) ** 2);
  const curves: Readonly<Record<Word, Curve>> = {
    good: (x) => 0.05 + 0.9 * like(x),
    bad: (x) => 0.95 - 0.9 * like(x),
    some: (x) => 0.05 + 0.85 * present(x) * (inOhms ? path(x) : 1),
    none: (x) => (inOhms ? 0.97 * (1 - path(x)) : 0.97 * (1 - present(x))),
    low: (x) =>
      wanted === undefined
        ? 1 / (1 + x / (20 * least))
        : 1 / (1 + Math.exp(2 - Math.log((wanted + least) / (x + least)) / 0.2)),
    "has continuity": (x) => (inOhms ? 0.97 / (1 + x / 2000) : present(x)),
    beeps: (x) => beepChance(meter, x),
    "no beep": (x) => 1 - beepChance(meter, x),
  };
  return (x) => Math.min(1 - slack, Math.max(slack, curves[word](size(x))));
}

/** Mean of a curve over a normal spread; three points where the spread is wide, else its middle. */
export function meanOver(curve: Curve, mean: number, sigma: number): number {
  if (!(sigma > 0.1 * Math.abs(mean))) return curve(mean);
  const { points, weights } = gaussHermite(3);
  let sum = 0;
  for (let i = 0; i < points.length; i++) sum += weights[i] * curve(mean + sigma * points[i]);
  return sum;
}

/** Chance that the beeper sounds at this many ohms: its threshold lies anywhere between the two bounds. */
export function beepChance(meter: Meter, ohms: number): number {
  const { lo, hi } = meter.beeperOhms ?? anyBeeper;
  if (lo === hi) return ohms < lo ? 1 : 0;
  return Math.min(1, Math.max(0, (hi - ohms) / (hi - lo)));
}

/** "Good" where nobody said what to expect: continuity for ohms, a megohm for insulation, something for the rest. */
function unasked(quantity: Quantity, x: number, least: number): number {
  if (quantity === "ohms") return 1 / (1 + x / 2000);
  if (quantity === "insulation ohms") return normalCdf(Math.log(x / 1e6));
  return (x * x) / (x * x + least * least);
}

function meanOf(term: Term): number {
  return term.kind === "open" ? Number.POSITIVE_INFINITY : term.mean;
}
