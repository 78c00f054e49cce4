import type { Evaluate, KindInstance, Moment } from "../part/index.ts";
import type { ElementValue, MachineElement, Parameter, Part, StateSet, Variable } from "./machine.ts";

/** A machine while it is put together: arrays that grow, names that become indices. */
export class Build {
  readonly parameters: Parameter[] = [];
  readonly parts: Part[] = [];
  readonly elements: MachineElement[] = [];
  readonly stateSets: StateSet[] = [];
  readonly variables: Variable[] = [];
  readonly goods: Evaluate[] = [];
  readonly partIndex = new Map<string, number>();
  readonly elementIndex = new Map<string, number>();
  readonly variableIndex = new Map<string, number>();
  readonly parameterIndex = new Map<string, number>();
  readonly #goodIndex = new Map<string, number>();

  variable(id: string, role: Variable["role"], initial: number): number {
    const known = this.variableIndex.get(id);
    if (known !== undefined) return known;
    const index = this.variables.push({ id, role, initial }) - 1;
    this.variableIndex.set(id, index);
    return index;
  }

  /** Index of a formula asked "of good", kept once under its text. */
  good(text: string, evaluate: Evaluate): number {
    const known = this.#goodIndex.get(text);
    if (known !== undefined) return known;
    const index = this.goods.push(evaluate) - 1;
    this.#goodIndex.set(text, index);
    return index;
  }

  parameter(id: string, rated: Parameter["rated"]): void {
    this.parameterIndex.set(id, this.parameters.push({ id, rated }) - 1);
  }
}

/** A moment that knows nothing but the ratings: what a formula of an element's value may look at. */
class Ratings implements Moment {
  values: ArrayLike<number>;

  constructor(values: ArrayLike<number>) {
    this.values = values;
  }

  parameter(index: number): number {
    return this.values[index] ?? Number.NaN;
  }

  volts = unknown;
  amps = unknown;
  watts = unknown;
  between = unknown;
  cross = unknown;
  apart = unknown;
  state = unknown;
  variable = unknown;
  good = unknown;
}

const unknown = (): number => Number.NaN;

/** Step of the central difference that gives a slope, relative to the rating; its own error is about its square. */
const SLOPE_STEP = 1e-5;

/**
 * An element's value as a function of the ratings, with its slopes at the nominal ones.
 *
 * @param parameters  indices of the ratings that it may depend on
 */
export function elementValue(evaluate: Evaluate, parameters: readonly number[], nominals: Float64Array): ElementValue {
  const ratings = new Ratings(nominals);
  const nominal = evaluate(ratings);
  const slopes: { parameter: number; slope: number }[] = [];
  const moved = Float64Array.from(nominals);
  for (const parameter of parameters) {
    const at = nominals[parameter] ?? 0;
    const step = SLOPE_STEP * (Math.abs(at) || 1);
    ratings.values = moved;
    moved[parameter] = at + step;
    const above = evaluate(ratings);
    moved[parameter] = at - step;
    const below = evaluate(ratings);
    moved[parameter] = at;
    const slope = (above - below) / (2 * step);
    if (slope !== 0 && Number.isFinite(slope)) slopes.push({ parameter, slope });
  }
  const of = (values: ArrayLike<number>): number => {
    ratings.values = values;
    return evaluate(ratings);
  };
  return { nominal, of, slopes };
}

/** What `elementValue` gives for something that does not depend on any rating. */
export function fixedValue(nominal: number): ElementValue {
  return { nominal, of: () => nominal, slopes: [] };
}

/** Names in a part at which a leak may sit, by the modes of its kind: from and to, each pair once. */
export function leakPlaces(instance: KindInstance): readonly { readonly from: string; readonly to: string }[] {
  const places = new Map<string, { from: string; to: string }>();
  for (const mode of instance.modes) {
    for (const rule of mode.does) {
      if (rule.does !== "leak-between") continue;
      for (const from of rule.from) places.set(`${from}-${rule.to}`, { from, to: rule.to });
    }
  }
  return [...places.values()];
}
