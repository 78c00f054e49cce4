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
    let worst: Push | undefined;
    for (const push of pushes) {
      if (!this.#wide[push.parameter] || Math.abs(push.shift) < WIDE_MATTERS * Math.abs(reading)) continue;
      if (worst === undefined || Math.abs(push.shift) > Math.abs(worst.shift)) worst = push;
    }
    return worst?.parameter;
  }
}

/** Below this share of the reading a wide number is as good as a narrow one. */
const WIDE_MATTERS = 0.1;

export function sigmaOf(pushes: readonly Push[]): number {
  let square = 0;
  for (const { shift } of pushes) square += shift * shift;
  return Math.sqrt(square);
}
