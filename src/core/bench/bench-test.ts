import { type Quantity, unitOfQuantity, windingFactor } from "../meter/index.ts";
import {
  type BenchRule,
  compileExpression,
  type Expression,
  type KindInstance,
  type Moment,
  parseExpression,
} from "../part/index.ts";
import { type Limits, parseLimits, type Rated, type Source } from "../quantity/index.ts";

/** The test of one loose part on the bench: its kind's own sequence, with the limits that its ratings give. */
export interface BenchTest {
  readonly says: string;
  /** The part's temperature, degrees: the limits of its windings and sensors are for it. */
  readonly celsius: number;
  readonly steps: readonly BenchStep[];
  readonly hazards: readonly string[];
  /** One operation of its coil or motor takes so many seconds, and so many a minute are allowed. */
  readonly duty?: KindInstance["duty"];
}

export interface BenchStep {
  /** Place in the sequence, from 0. */
  readonly index: number;
  readonly do: "measure" | "energise" | "look" | "turn by hand";
  /** What is done, and what is read then. */
  readonly says: string;
  /** What a good part shows, as its kind tells it: `≤ 0R1`, `coil`, "snaps and comes free". */
  readonly good: string;
  /** Where that stands. */
  readonly source?: Source;
  /** A reading is judged against limits (base units); a look by the person. */
  readonly reading?: {
    readonly quantity: Quantity;
    readonly limits: Limits;
    /** By what share of themselves the limits rise with each kelvin; absent where they stand still. */
    readonly perKelvin?: number;
  };
  /** Operations that are tried one after the other; a coming and going fault shows in no single one. */
  readonly repeat?: number;
  /** Energised with more than a touchable voltage: live work, on a bench that is made for it. */
  readonly live: boolean;
}

/** A rating told without a tolerance is taken so wide: ±10 % (common practice for coils and windings, no source). */
const PLAIN_RATING = 0.1;
/** Volts that may be touched, AC. @source IEC 61140, extra-low voltage: 50 V AC (from memory) */
const TOUCHABLE_VOLTS = 50;
/** A part that has lain in a room all night, in degrees Celsius: what windings are rated at. */
export const ROOM_CELSIUS = 20;

/**
 * The bench test of a part kind with given ratings.
 *
 * @param celsius the part's temperature: windings and temperature sensors have other ohms warm than cold
 */
export function benchTestOf(instance: KindInstance, celsius = ROOM_CELSIUS): BenchTest {
  const { says, bench, hazards, benchHazards, duty } = instance;
  const volts = instance.ratings.get("U")?.nominal ?? Number.POSITIVE_INFINITY;
  return {
    says,
    celsius,
    steps: bench.map((rule, index) => {
      const { do: act, what, then, good, repeat, source } = rule;
      const reading = readingOf(rule, instance, celsius);
      return {
        index,
        do: act,
        says: then === undefined ? what : `${what}, then ${then}`,
        good,
        ...(source === undefined ? {} : { source }),
        ...(reading === undefined ? {} : { reading }),
        ...(repeat === undefined ? {} : { repeat }),
        live: act === "energise" && volts > TOUCHABLE_VOLTS,
      };
    }),
    hazards: [...hazards, ...benchHazards],
    ...(duty === undefined ? {} : { duty }),
  };
}

/** The ratings that a test's steps and limits name; the others play no part in it. */
export function ratingsOf({ steps }: BenchTest, instance: KindInstance): ReadonlyMap<string, Rated> {
  const named = new Set(steps.flatMap(({ says, good }) => `${says} ${good}`.split(/[^\w-]+/)));
  return new Map([...instance.ratings].filter(([name]) => named.has(name)));
}

/** What the meter should read at a temperature, and how far that moves with a kelvin. */
function readingOf(rule: BenchRule, instance: KindInstance, celsius: number): BenchStep["reading"] {
  const { reads: quantity } = rule;
  if (quantity === undefined) return undefined;
  const limits = limitsOf(rule, quantity, instance, celsius);
  if (limits === undefined) return undefined;
  const { lo, hi } = limits;
  if (!Number.isFinite(lo) || !Number.isFinite(hi)) return { quantity, limits };
  const warmer = limitsOf(rule, quantity, instance, celsius + 1);
  const perKelvin = warmer === undefined ? 0 : (warmer.lo + warmer.hi) / (lo + hi) - 1;
  return { quantity, limits, ...(perKelvin === 0 ? {} : { perKelvin }) };
}

/** `≤ 0R1`, `OL`, or a formula over the ratings and the temperature, over the ratings' whole width. */
function limitsOf(
  { good, follows }: BenchRule,
  quantity: Quantity,
  instance: KindInstance,
  celsius: number,
): Limits | undefined {
  // The name of a rating may read like an amount (`R25`, as 0.25 Ω): a rating goes before.
  const written = instance.ratings.has(good) ? undefined : parseLimits(good, { unit: unitOfQuantity(quantity) });
  if (written?.ok === true) return widened(written.value);
  const formula = parseExpression(good, { at: [] });
  if (!formula.ok) return undefined;
  const values = corners(formula.value, instance.ratings, celsius);
  if (values.length === 0) return undefined;
  const factor = follows === "copper" ? windingFactor(ROOM_CELSIUS, celsius) : 1;
  const { lo, hi } = widened({ lo: Math.min(...values), hi: Math.max(...values) });
  return { lo: lo * factor, hi: hi * factor };
}

/** A single number stands for a rating without a tolerance; OL and whatever has a width stay as they are. */
function widened(limits: Limits): Limits {
  const { lo, hi } = limits;
  return lo === hi && Number.isFinite(lo) ? { lo: lo * (1 - PLAIN_RATING), hi: hi * (1 + PLAIN_RATING) } : limits;
}

/** The formula at every corner of the ratings it names; empty where it names anything but these and `celsius`. */
function corners(formula: Expression, ratings: ReadonlyMap<string, Rated>, celsius: number): readonly number[] {
  const named = new Map<string, Rated>();
  const at = (values: ReadonlyMap<string, number>): number | undefined => {
    const evaluate = compileExpression(formula, {
      resolve: (ask) => {
        if (ask.for !== "value") return undefined;
        if (ask.name === "celsius") return celsius;
        const rated = ratings.get(ask.name);
        if (rated !== undefined) named.set(ask.name, rated);
        return values.get(ask.name) ?? rated?.nominal;
      },
    });
    return evaluate.ok ? evaluate.value(noMoment) : undefined;
  };
  const nominal = at(new Map());
  if (nominal === undefined || !Number.isFinite(nominal)) return [];
  let points: readonly ReadonlyMap<string, number>[] = [new Map()];
  for (const [name, { lo, hi }] of named) {
    points = points.flatMap((point) => [new Map(point).set(name, lo), new Map(point).set(name, hi)]);
  }
  return points.flatMap((point) => at(point) ?? []);
}

/** Ratings stand still: no formula over them looks at a running machine. */
const noMoment = new Proxy({} as Moment, {
  get: () => {
    throw new Error("a bench limit looks at no running machine");
  },
});
