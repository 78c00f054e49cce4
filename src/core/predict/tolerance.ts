import { isWide, standardUncertainty } from "../quantity/index.ts";
import type { Machine } from "../sheet/index.ts";

/** How a reading moves with one rated number of the machine, in the reading's unit per standard deviation. */
export interface Push {
  readonly parameter: number;
  readonly shift: number;
}

/**
 * Carries derivatives by element values on to the machine's rated numbers; a number that several elements share is one
 * source, so its pushes add before they are squared.
 *
 * @source GUM 5.1.2 (law of propagation), first order
 */
export class Tolerances {
  /** Standard uncertainty of each rated number. */
  readonly #u: readonly number[];
  readonly #wide: readonly boolean[];
  readonly #machine: Machine;
  readonly #sum: Float64Array;

  constructor(machine: Machine) {
    this.#machine = machine;
    this.#u = machine.parameters.map(({ rated }) => standardUncertainty(rated));
    this.#wide = machine.parameters.map(({ rated }) => isWide(rated));
    this.#sum = new Float64Array(machine.parameters.length);
  }

  /**
   * Pushes of a reading, those that move it at all.
   *
   * @param byValue derivative of the reading by the value (ohms, farads ...) of each element; 0 where it has none
   * @param stateOf index into the values of each element
   */
  pushes(byValue: ArrayLike<number>, stateOf: (element: number) => number): readonly Push[] {
    const touched: number[] = [];
    const sum = this.#sum;
    const { elements } = this.#machine;
    for (let element = 0; element < elements.length; element++) {
      const by = byValue[element];
      if (by === 0 || !Number.isFinite(by)) continue;
      const value = elements[element].values[stateOf(element)];
      for (const { parameter, slope } of value.slopes) {
        if (this.#u[parameter] === 0 || !Number.isFinite(slope)) continue;
        if (sum[parameter] === 0) touched.push(parameter);
        sum[parameter] += by * slope;
      }
    }
    return touched.map((parameter) => {
      const shift = sum[parameter] * this.#u[parameter];
      sum[parameter] = 0;
      return { parameter, shift };
    });
  }

  /** The rated number, wide beyond first order, that moves the reading most; none when it does not matter. */
  widest(pushes: readonly Push[], reading: number): number | undefined {
    return largest(pushes, (push) => this.#wide[push.parameter] && matters(push, reading))?.parameter;
  }

  /** The push of any rated number, wide or not, that moves the reading most; none when it does not matter. */
  steepest(pushes: readonly Push[], reading: number): Push | undefined {
    return largest(pushes, (push) => matters(push, reading));
  }

  /** Half a standard deviation above where a rated number stands. */
  halfStep(parameter: number): number {
    return this.#machine.parameters[parameter].rated.nominal + this.#u[parameter] / 2;
  }
}

/** Below this share of the reading a bent line is as good as a straight one. */
const MATTERS = 0.1;

function matters({ shift }: Push, reading: number): boolean {
  return Math.abs(shift) >= MATTERS * Math.abs(reading);
}

/** Does half a step move the reading by half of what its slope says, within a quarter? */
export function isStraight(before: number, halfStep: number, { shift }: Push): boolean {
  return Math.abs(halfStep - before - shift / 2) <= (0.25 * Math.abs(shift)) / 2;
}

function largest(pushes: readonly Push[], among: (push: Push) => boolean): Push | undefined {
  let worst: Push | undefined;
  for (const push of pushes) {
    if (among(push) && (worst === undefined || Math.abs(push.shift) > Math.abs(worst.shift))) worst = push;
  }
  return worst;
}

export function sigmaOf(pushes: readonly Push[]): number {
  let square = 0;
  for (const { shift } of pushes) square += shift * shift;
  return Math.sqrt(square);
}
