import type { Network } from "../matrix/index.ts";
import type { Adjoints } from "./adjoint.ts";
import type { Shape, Solver } from "./circuit.ts";
import { enter, type Layer } from "./layer.ts";
import type { ShortCurrents } from "./shorts.ts";

/** A layer with its network, and whether its sources give anything in this solve. */
interface Live {
  readonly layer: Layer;
  readonly network: Network;
  active: boolean;
}

/** Solves one shape layer by layer and adds the answers. The last answer stays in `outRe`, `outIm`, `outError`. */
export class LayeredSolver implements Solver {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly emfRe: Float64Array;
  readonly emfIm: Float64Array;
  outRe = 0;
  outIm = 0;
  outError = 0;
  readonly #shape: Shape;
  readonly #layers: readonly Live[];
  readonly #adjoints: Adjoints;
  readonly #shorts: ShortCurrents;
  readonly #place: Int32Array;
  readonly #isSource: Uint8Array;

  constructor(
    shape: Shape,
    layers: readonly Layer[],
    make: (on: Layer) => Network,
    adjoints: Adjoints,
    shorts: ShortCurrents,
  ) {
    this.#shape = shape;
    this.#layers = layers.map((on) => ({ layer: on, network: make(on), active: false }));
    this.#adjoints = adjoints;
    this.#shorts = shorts;
    this.#place = layers[0].schedule.place;
    this.re = new Float64Array(shape.elements.length);
    this.im = new Float64Array(shape.elements.length);
    this.emfRe = new Float64Array(shape.sources.length);
    this.emfIm = new Float64Array(shape.sources.length);
    this.#isSource = new Uint8Array(shape.elements.length);
    for (const e of shape.sources) this.#isSource[e] = 1;
  }

  solve(): void {
    for (let l = 0; l < this.#layers.length; l++) {
      const live = this.#layers[l];
      const { layer, network } = live;
      live.active = this.#hold(layer, network);
      if (!live.active && l > 0) continue;
      enter(layer, network, this.re, this.im);
      network.eliminate(true);
      if (live.active) network.spread();
    }
  }

  /** Sets the potentials of a layer's terminals; false where all are 0. */
  #hold({ group, schedule }: Layer, { heldRe, heldIm }: Network): boolean {
    if (group === undefined) return false;
    let any = false;
    for (const { from, to, source, sense } of group.steps) {
      const re = this.emfRe[source];
      const im = this.emfIm[source];
      heldRe[to] = heldRe[from] + sense * re;
      heldIm[to] = heldIm[from] + sense * im;
      any ||= re !== 0 || im !== 0;
    }
    return any && schedule.nodes > schedule.free;
  }

  #between(a: number, b: number): void {
    let re = 0;
    let im = 0;
    let error = 0;
    if (a !== b && this.joined(a, b)) {
      for (let l = 0; l < this.#layers.length; l++) {
        const { layer, network, active } = this.#layers[l];
        if (!active) continue;
        network.between(layer.schedule.place[a], layer.schedule.place[b]);
        re += network.re;
        im += network.im;
        error += network.error;
      }
    }
    this.outRe = re;
    this.outIm = im;
    this.outError = error;
  }

  /** Difference of potential along one element. */
  #across(element: number): void {
    let re = 0;
    let im = 0;
    let error = 0;
    for (let l = 0; l < this.#layers.length; l++) {
      const { layer, network, active } = this.#layers[l];
      const edge = layer.edgeOfElement[element];
      if (!active || edge < 0) continue;
      network.difference(edge);
      re += layer.signOfElement[element] * network.re;
      im += layer.signOfElement[element] * network.im;
      error += network.error;
    }
    this.outRe = re;
    this.outIm = im;
    this.outError = error;
  }

  volts(a: number, b: number): { re: number; im: number } {
    this.#between(a, b);
    return { re: this.outRe, im: this.outIm };
  }

  magnitude(a: number, b: number): number {
    this.#between(a, b);
    return Math.sqrt(this.outRe * this.outRe + this.outIm * this.outIm);
  }

  #flow(element: number): void {
    const yr = this.re[element];
    const yi = this.im[element];
    if (this.#isSource[element] === 1 || yr === Number.POSITIVE_INFINITY) {
      this.#shorts.through(element, this);
      this.outRe = this.#shorts.re;
      this.outIm = this.#shorts.im;
      return;
    }
    if (yr === 0 && yi === 0) {
      this.outRe = 0;
      this.outIm = 0;
      return;
    }
    this.#across(element);
    const dr = this.outRe;
    const di = this.outIm;
    this.outRe = yr * dr - yi * di;
    this.outIm = yr * di + yi * dr;
  }

  amps(element: number): { re: number; im: number } {
    this.#flow(element);
    return { re: this.outRe, im: this.outIm };
  }

  ampsMagnitude(element: number): number {
    this.#flow(element);
    return Math.sqrt(this.outRe * this.outRe + this.outIm * this.outIm);
  }

  joined(a: number, b: number): boolean {
    const root = this.#layers[0].network.root;
    return root[this.#place[a]] === root[this.#place[b]];
  }

  metered(a: number, b: number, inputOhms: number): { volts: number; floats: boolean } {
    if (a === b) return { volts: 0, floats: false };
    if (!this.joined(a, b)) return { volts: 0, floats: true };
    this.#between(a, b);
    const open = Math.sqrt(this.outRe * this.outRe + this.outIm * this.outIm);
    if (open === 0) return { volts: 0, floats: false };
    const { network } = this.#layers[0];
    network.port(this.#place[a], this.#place[b]);
    const load = 1 + network.re / inputOhms;
    const swing = network.im / inputOhms;
    return { volts: open / Math.sqrt(load * load + swing * swing), floats: false };
  }

  partials(a: number, b: number): { re: Float64Array; im: Float64Array } {
    const re = new Float64Array(this.#shape.elements.length);
    const im = new Float64Array(re.length);
    if (a === b || !this.joined(a, b)) return { re, im };
    const unit = this.#adjoints.unitFlow(a, b, this.re, this.im);
    if (unit === undefined) return { re, im };
    for (const element of this.#layers[0].layer.members) {
      this.#across(element);
      const dr = this.outRe;
      const di = this.outIm;
      const ar = unit.re[element];
      const ai = unit.im[element];
      re[element] = di * ai - dr * ar;
      im[element] = -(dr * ai + di * ar);
    }
    return { re, im };
  }
}
