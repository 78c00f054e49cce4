import type { Network } from "../matrix/index.ts";
import type { Shape } from "./circuit.ts";
import { enter, type Layer, layer } from "./layer.ts";

/**
 * Differences along every element for one ampere sent in at one point and out at another, all sources dead. With them,
 * one solve gives the partials of one reading for all elements.
 *
 * @source S. W. Director, R. A. Rohrer, IEEE Trans. Circuit Theory 16 (1969) 318, adjoint network (from memory)
 */
export class Adjoints {
  readonly #shape: Shape;
  readonly #sourcesDead: "short" | "out";
  readonly #networkOn: (on: Layer) => Network;
  readonly #layers = new Map<number, { readonly on: Layer; readonly network: Network }>();

  /**
   * Sources are dead shorts for a voltage, and out of the circuit for an ohmmeter.
   *
   * @param networkOn  a network on a layer: complex, or real where no element has an imaginary part
   */
  constructor(shape: Shape, sourcesDead: "short" | "out", networkOn: (on: Layer) => Network) {
    this.#shape = shape;
    this.#sourcesDead = sourcesDead;
    this.#networkOn = networkOn;
  }

  /** Volts along each element for one ampere from p to q; undefined where no path joins them or a dead short does. */
  unitFlow(
    p: number,
    q: number,
    re: Float64Array,
    im: Float64Array,
  ): { readonly re: Float64Array; readonly im: Float64Array } | undefined {
    const { on, network } = this.#layerFor(p, q);
    enter(on, network, re, im);
    network.eliminate(false);
    network.reduced(on.schedule.edgeOf(p, q));
    const square = network.re * network.re + network.im * network.im;
    if (square === 0 || network.re === Number.POSITIVE_INFINITY) return undefined;
    network.heldRe[0] = network.re / square;
    network.heldIm[0] = -network.im / square;
    network.spread();
    const unitRe = new Float64Array(re.length);
    const unitIm = new Float64Array(re.length);
    for (let e = 0; e < unitRe.length; e++) {
      if (on.edgeOfElement[e] < 0) continue;
      network.difference(on.edgeOfElement[e]);
      unitRe[e] = on.signOfElement[e] * network.re;
      unitIm[e] = on.signOfElement[e] * network.im;
    }
    return { re: unitRe, im: unitIm };
  }

  /** Ohms between p and q with both eliminated last, so that no subtraction is left anywhere; Infinity where open. */
  ohmsWithEndsLast(p: number, q: number, re: Float64Array, im: Float64Array): number {
    const { on, network } = this.#layerFor(p, q);
    enter(on, network, re, im);
    network.eliminate(false);
    network.reduced(on.schedule.edgeOf(p, q));
    return 1 / network.re;
  }

  #layerFor(p: number, q: number): { readonly on: Layer; readonly network: Network } {
    const key = p * this.#shape.nodes + q;
    const known = this.#layers.get(key);
    if (known !== undefined) return known;
    const shorted = this.#sourcesDead === "short" ? this.#shape.sources : [];
    const on = layer(this.#shape, { held: [p, q], late: [], shorted });
    const made = { on, network: this.#networkOn(on) };
    this.#layers.set(key, made);
    return made;
  }
}
