import { type Quantity, unitOfQuantity } from "../meter/index.ts";
import { compileExpression, type Expression, type KindInstance, type Moment, parseExpression } from "../part/index.ts";
import { type Limits, parseLimits, type Rated } from "../quantity/index.ts";

/** The test of one loose part on the bench: its kind's own sequence, with the limits that its ratings give. */
export interface BenchTest {
  readonly says: string;
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
  /** What a good part shows, as its kind tells it: `≤ 0R1`, "snaps and comes free". */
  readonly good: string;
  /** A reading is judged against limits (base units); a look by the person. */
  readonly reading?: { readonly quantity: Quantity; readonly limits: Limits };
  /** Operations that are tried one after the other; a coming and going fault shows in no single one. */
  readonly repeat?: number;
  /** Energised with more than a touchable voltage: live work, on a bench that is made for it. */
  readonly live: boolean;
}

/** A rating told without a tolerance is taken so wide: ±10 % (common practice for coils and windings, no source). */
const PLAIN_RATING = 0.1;
/** Volts that may be touched, AC. @source IEC 61140, extra-low voltage: 50 V AC (from memory) */
const TOUCHABLE_VOLTS = 50;
/** What a reading of a bench step is of, by how the step begins. */
const QUANTITIES: readonly (readonly [RegExp, Quantity])[] = [
  [/^insulation\b/, "insulation ohms"],
  [/^(its )?ohms\b/, "ohms"],
  [/^microfarads\b/, "farads"],
  [/^watts\b/, "watts"],
  [/^litres a minute\b/, "litres per minute"],
];

/** The bench test of a part kind with given ratings. */
export function benchTestOf(instance: KindInstance): BenchTest {
  const { says, bench, hazards, benchHazards, duty } = instance;
  const volts = instance.ratings.get("U")?.nominal ?? Number.POSITIVE_INFINITY;
  return {
    says,
    steps: bench.map(({ do: act, what, then, good, repeat }, index) => {
      const quantity = QUANTITIES.find(([begins]) => begins.test(then ?? what))?.[1];
      const told = good.replace(/\s*@.*$/, "");
      const limits = quantity === undefined ? undefined : limitsOf(told, quantity, instance);
      return {
        index,
        do: act,
        says: then === undefined ? what : `${what}, then ${then}`,
        good: told,
        ...(quantity === undefined || limits === undefined ? {} : { reading: { quantity, limits } }),
        ...(repeat === undefined ? {} : { repeat }),
        live: act === "energise" && volts > TOUCHABLE_VOLTS,
      };
    }),
    hazards: [...hazards, ...benchHazards],
    ...(duty === undefined ? {} : { duty }),
  };
}

/** `≤ 0R1`, `OL`, or a formula over the ratings, over their whole width. */
function limitsOf(good: string, quantity: Quantity, instance: KindInstance): Limits | undefined {
  // The name of a rating may read like an amount (`R25`, as 0.25 Ω): a rating goes before.
  const written = instance.ratings.has(good) ? undefined : parseLimits(good, { unit: unitOfQuantity(quantity) });
  if (written?.ok === true) return widened(written.value);
  const formula = parseExpression(good, { at: [] });
  if (!formula.ok) return undefined;
  const values = corners(formula.value, instance.ratings);
  if (values.length === 0) return undefined;
  return widened({ lo: Math.min(...values), hi: Math.max(...values) });
}

/** A single number stands for a rating without a tolerance; OL and whatever has a width stay as they are. */
function widened(limits: Limits): Limits {
  const { lo, hi } = limits;
  return lo === hi && Number.isFinite(lo) ? { lo: lo * (1 - PLAIN_RATING), hi: hi * (1 + PLAIN_RATING) } : limits;
}

/** The formula at every corner of the ratings it names; empty where it names anything else. */
function corners(formula: Expression, ratings: ReadonlyMap<string, Rated>): readonly number[] {
  const named = new Map<string, Rated>();
  const at = (values: ReadonlyMap<string, number>): number | undefined => {
    const evaluate = compileExpression(formula, {
      resolve: (ask) => {
        if (ask.for !== "value") return undefined;
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
