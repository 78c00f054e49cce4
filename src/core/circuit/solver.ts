import { type Bounded, complexFrom, type Network, roundOff, toNumber } from "../matrix/index.ts";
import type { Adjoints } from "./adjoint.ts";
import type { Guard, Shape, Solver } from "./circuit.ts";
import { KirchhoffCut } from "./cut.ts";
import { enter, type Layer } from "./layer.ts";
import { type WideElement, WideSolver } from "./wide-solver.ts";

/** A layer with its network, and whether its sources give anything in this solve. */
interface Live {
  readonly layer: Layer;
  readonly network: Network;
  active: boolean;
}

/**
 * Solves one shape layer by layer and adds the answers. Every reading carries a running bound; one that the guard does
 * not accept is taken again from a double-double solve of the same values.
 */
export class LayeredSolver implements Solver {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly emfRe: Float64Array;
  readonly emfIm: Float64Array;
  error = 0;
  wideSolves = 0;
  /** The last answer. */
  #outRe = 0;
  #outIm = 0;
  readonly #shape: Shape;
  readonly #layers: readonly Live[];
  readonly #adjoints: Adjoints;
  readonly #guard: Guard;
  readonly #cut: KirchhoffCut;
  /** The layer that tells islands and impedances: any that was eliminated, since in all of them every source is dead or held. */
  #base: Live;
  #place: Int32Array;
  readonly #isSource: Uint8Array;
  readonly #rigid = (element: number): boolean =>
    this.#isSource[element] === 1 || this.re[element] === Number.POSITIVE_INFINITY;
  /** The same values in double-double, made when first needed after a solve. */
  #wide: WideSolver | undefined;
  #isEliminated = false;

  constructor(shape: Shape, layers: readonly Layer[], make: (on: Layer) => Network, adjoints: Adjoints, guard: Guard) {
    this.#shape = shape;
    this.#layers = layers.map((on) => ({ layer: on, network: make(on), active: false }));
    this.#adjoints = adjoints;
    this.#guard = guard;
    this.#cut = new KirchhoffCut(shape.nodes, shape.elements);
    this.#base = this.#layers[0];
    this.#place = this.#base.layer.schedule.place;
    this.re = new Float64Array(shape.elements.length);
    this.im = new Float64Array(shape.elements.length);
    this.emfRe = new Float64Array(shape.sources.length);
    this.emfIm = new Float64Array(shape.sources.length);
    this.#isSource = new Uint8Array(shape.elements.length);
    for (const e of shape.sources) this.#isSource[e] = 1;
  }

  /** Nothing is eliminated before something is read: a machine is often looked at through one of its two circuits only. */
  solve(): void {
    this.#wide = undefined;
    this.#isEliminated = false;
  }

  #eliminate(): void {
    this.#isEliminated = true;
    let base: Live | undefined;
    for (let l = 0; l < this.#layers.length; l++) {
      const live = this.#layers[l];
      live.active = this.#hold(live.layer, live.network);
      if (!live.active) continue;
      base ??= live;
      enter(live.layer, live.network, this.re, this.im);
      live.network.eliminate(true);
      live.network.spread();
    }
    if (base === undefined) {
      base = this.#layers[0];
      enter(base.layer, base.network, this.re, this.im);
      base.network.eliminate(true);
    }
    this.#base = base;
    this.#place = base.layer.schedule.place;
  }

  /** Sets the potentials of a layer's terminals, by one source alone where that is asked; false where all are 0. */
  #hold({ group, schedule }: Layer, { heldRe, heldIm }: Network, alone?: number): boolean {
    if (group === undefined) return false;
    let any = false;
    for (const { from, to, source, sense } of group.steps) {
      const gives = alone === undefined || alone === source;
      const re = gives ? this.emfRe[source] : 0;
      const im = gives ? this.emfIm[source] : 0;
      heldRe[to] = heldRe[from] + sense * re;
      heldIm[to] = heldIm[from] + sense * im;
      any ||= re !== 0 || im !== 0;
    }
    return any && schedule.nodes > schedule.free;
  }

  #between(a: number, b: number): void {
    this.#outRe = 0;
    this.#outIm = 0;
    this.error = 0;
    if (a === b || !this.joined(a, b)) return;
    for (let l = 0; l < this.#layers.length; l++) {
      const { layer, network, active } = this.#layers[l];
      if (!active) continue;
      network.between(layer.schedule.place[a], layer.schedule.place[b]);
      this.#add(network, 1);
    }
    if (this.#doubtful()) this.#takeFrom(this.#widened().between(a, b));
  }

  /** Difference of potential along one element. */
  #across(element: number): void {
    this.#outRe = 0;
    this.#outIm = 0;
    this.error = 0;
    if (!this.#isEliminated) this.#eliminate();
    for (let l = 0; l < this.#layers.length; l++) {
      const { layer, network, active } = this.#layers[l];
      const edge = layer.edgeOfElement[element];
      if (!active || edge < 0) continue;
      network.difference(edge);
      this.#add(network, layer.signOfElement[element]);
    }
    if (this.#doubtful()) this.#takeFrom(this.#widened().across(element));
  }

  #add(network: Network, sign: number): void {
    this.#outRe += sign * network.re;
    this.#outIm += sign * network.im;
    this.error += network.error + roundOff * (Math.abs(this.#outRe) + Math.abs(this.#outIm));
  }

  /** Is the last difference worse known than the guard allows? Also where the bound is no number. */
  #doubtful(): boolean {
    const { relative, floorVolts } = this.#guard;
    return !(this.error <= floorVolts || this.error <= relative * (Math.abs(this.#outRe) + Math.abs(this.#outIm)));
  }

  #widened(): WideSolver {
    if (this.#wide !== undefined) return this.#wide;
    const elements = Array.from(
      this.re,
      (re, e): WideElement => (re === Number.POSITIVE_INFINITY ? "short" : complexFrom(re, this.im[e])),
    );
    const emf = Array.from(this.emfRe, (re, source) => complexFrom(re, this.emfIm[source]));
    this.wideSolves++;
    this.#wide = new WideSolver(
      this.#shape,
      this.#layers.map(({ layer }) => layer),
      elements,
      emf,
    );
    return this.#wide;
  }

  #takeFrom({ value, error }: Bounded): void {
    this.#outRe = toNumber(value.re);
    this.#outIm = toNumber(value.im);
    this.error = error + roundOff * (Math.abs(this.#outRe) + Math.abs(this.#outIm));
  }

  volts(a: number, b: number): { re: number; im: number } {
    this.#between(a, b);
    return { re: this.#outRe, im: this.#outIm };
  }

  magnitude(a: number, b: number): number {
    this.#between(a, b);
    return Math.sqrt(this.#outRe * this.#outRe + this.#outIm * this.#outIm);
  }

  #flow(element: number): void {
    const yr = this.re[element];
    const yi = this.im[element];
    if (this.#rigid(element)) {
      this.#crossCut(element);
      return;
    }
    this.#across(element);
    const dr = this.#outRe;
    const di = this.#outIm;
    this.#outRe = yr * dr - yi * di;
    this.#outIm = yr * di + yi * dr;
    this.error *= Math.abs(yr) + Math.abs(yi);
  }

  #crossCut(element: number): void {
    let re = Number.NaN;
    let im = Number.NaN;
    let error = Number.NaN;
    if (this.#cut.find(element, this.#rigid)) {
      re = 0;
      im = 0;
      error = 0;
      const { crossing, senses } = this.#cut;
      for (let t = 0; t < crossing.length; t++) {
        this.#flow(crossing[t]);
        re -= senses[t] * this.#outRe;
        im -= senses[t] * this.#outIm;
        error += this.error;
      }
    }
    this.#outRe = re;
    this.#outIm = im;
    this.error = error;
  }

  amps(element: number): { re: number; im: number } {
    this.#flow(element);
    return { re: this.#outRe, im: this.#outIm };
  }

  ampsMagnitude(element: number): number {
    this.#flow(element);
    return Math.sqrt(this.#outRe * this.#outRe + this.#outIm * this.#outIm);
  }

  joined(a: number, b: number): boolean {
    if (!this.#isEliminated) this.#eliminate();
    const root = this.#base.network.root;
    return root[this.#place[a]] === root[this.#place[b]];
  }

  metered(a: number, b: number, inputOhms: number): { volts: number; floats: boolean } {
    if (a === b) return { volts: 0, floats: false };
    if (!this.joined(a, b)) return { volts: 0, floats: true };
    this.#between(a, b);
    const open = Math.sqrt(this.#outRe * this.#outRe + this.#outIm * this.#outIm);
    if (open === 0) return { volts: 0, floats: false };
    const voltsError = this.error;
    this.#loadImpedance(a, b, inputOhms);
    const load = 1 + this.#outRe / inputOhms;
    const swing = this.#outIm / inputOhms;
    const volts = open / Math.sqrt(load * load + swing * swing);
    this.error = (volts / open) * voltsError + (volts * this.error) / inputOhms;
    return { volts, floats: false };
  }

  /** Impedance seen between two points. It counts as 1 + Z / input, which is never under 1, so |Z| may be small and unsure. */
  #loadImpedance(a: number, b: number, inputOhms: number): void {
    const { network } = this.#base;
    network.port(this.#place[a], this.#place[b]);
    this.#outRe = network.re;
    this.#outIm = network.im;
    this.error = network.error;
    if (!(this.error <= this.#guard.relative * inputOhms)) this.#takeFrom(this.#widened().impedance(a, b));
  }

  partials(a: number, b: number): { re: Float64Array; im: Float64Array } {
    const re = new Float64Array(this.#shape.elements.length);
    const im = new Float64Array(re.length);
    if (a === b || !this.joined(a, b)) return { re, im };
    const unit = this.#adjoints.unitFlow(a, b, this.re, this.im);
    if (unit === undefined) return { re, im };
    for (const element of this.#layers[0].layer.members) {
      const ends = this.#shape.elements[element];
      if (!this.joined(ends.a, ends.b)) continue;
      this.#across(element);
      const dr = this.#outRe;
      const di = this.#outIm;
      const ar = unit.re[element];
      const ai = unit.im[element];
      re[element] = di * ai - dr * ar;
      im[element] = -(dr * ai + di * ar);
    }
    return { re, im };
  }

  bySource(a: number, b: number): { re: Float64Array; im: Float64Array } {
    const re = new Float64Array(this.#shape.sources.length);
    const im = new Float64Array(re.length);
    if (a === b || !this.joined(a, b)) return { re, im };
    for (const { layer, network, active } of this.#layers) {
      if (!active || layer.group === undefined) continue;
      const giving = layer.group.sources.filter((source) => this.emfRe[source] !== 0 || this.emfIm[source] !== 0);
      for (const source of giving) {
        if (giving.length > 1) this.#spreadFrom(layer, network, source);
        network.between(layer.schedule.place[a], layer.schedule.place[b]);
        re[source] = network.re;
        im[source] = network.im;
      }
      if (giving.length > 1) this.#spreadFrom(layer, network);
    }
    return { re, im };
  }

  /** Other potentials at the terminals of a network that is eliminated already. */
  #spreadFrom(layer: Layer, network: Network, alone?: number): void {
    this.#hold(layer, network, alone);
    network.spread();
  }
}
