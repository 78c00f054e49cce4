import {
  type Bounded,
  complexAdd,
  complexMultiply,
  complexNegate,
  complexZero,
  isZero,
  type NodePair,
  taxicab,
  type WideComplex,
  WideNetwork,
} from "../matrix/index.ts";
import type { Shape } from "./circuit.ts";
import { KirchhoffCut } from "./cut.ts";
import { type Layer, layer } from "./layer.ts";

/** What each element of a shape is: an admittance, or a dead short. Sources are passed over. */
export type WideElement = WideComplex | "short";

/** An ideal current source: `amperes` flow through it from a to b. */
export interface WideCurrent extends NodePair {
  readonly amperes: WideComplex;
}

/** A solved layer, and the relative error of all its answers that comes from what was held. */
interface Live {
  readonly on: Layer;
  readonly network: WideNetwork;
  readonly heldError: number;
}

const noVolts: Bounded = { value: complexZero, error: 0 };

/** One circuit solved in double-double arithmetic: layer by layer as `LayeredSolver`, and with current sources. */
export class WideSolver {
  readonly #shape: Shape;
  readonly #layers: readonly Layer[];
  readonly #elements: readonly WideElement[];
  readonly #currents: readonly WideCurrent[];
  readonly #base: WideNetwork;
  /** Solved layers whose answers add. */
  readonly #live: Live[] = [];
  readonly #cut: KirchhoffCut;
  readonly #isSource: ReadonlySet<number>;

  /** `emf` as `Shape.sources`. */
  constructor(
    shape: Shape,
    layers: readonly Layer[],
    elements: readonly WideElement[],
    emf: readonly WideComplex[],
    currents: readonly WideCurrent[] = [],
    /** Elements of no admittance whose current is fixed by what they are in a loop with (a second source in parallel). */
    redundant: readonly number[] = [],
  ) {
    this.#shape = shape;
    this.#layers = layers;
    this.#elements = elements;
    this.#currents = currents;
    this.#isSource = new Set([...shape.sources, ...redundant]);
    this.#cut = new KirchhoffCut(shape.nodes, [...shape.elements, ...currents]);
    const networks = layers.map((on) => this.#entered(on));
    this.#base = networks[0];
    this.#base.eliminate(true);
    layers.forEach((on, l) => {
      const network = networks[l];
      if (on.group === undefined || emf.every(isZero)) return;
      if (l > 0) network.eliminate(true);
      for (const { from, to, source, sense } of on.group.steps) {
        const rise = sense === 1 ? emf[source] : complexNegate(emf[source]);
        network.held[to] = complexAdd(network.held[from], rise);
      }
      network.spread();
      this.#live.push({ on, network, heldError: 0 });
    });
    for (const current of currents) this.#drive(current);
  }

  /** Elements of a layer on a network of its own, not yet eliminated. */
  #entered(on: Layer): WideNetwork {
    const network = new WideNetwork(on.schedule);
    on.members.forEach((element, t) => {
      const what = this.#elements[element];
      if (what === "short") network.short(on.edges[t]);
      else network.join(on.edges[t], what);
    });
    for (const edge of on.shorted) network.short(edge);
    return network;
  }

  /** Adds the answer of one current source: its terminals held last at the volts it drives across what is left. */
  #drive({ a, b, amperes }: WideCurrent): void {
    if (a === b || isZero(amperes) || !this.joined(a, b)) return;
    const on = layer(this.#shape, { held: [a, b], late: [], shorted: this.#shape.sources });
    const network = this.#entered(on);
    network.eliminate(false);
    const impedance = network.left(on.schedule.edgeOf(a, b));
    if (impedance === undefined) return;
    // What flows through the source from a to b comes back outside it from b to a.
    network.held[1] = complexMultiply(impedance.value, amperes);
    network.spread();
    const heldError = isZero(impedance.value) ? 0 : impedance.error / taxicab(impedance.value);
    this.#live.push({ on, network, heldError });
  }

  joined(a: number, b: number): boolean {
    const { place } = this.#layers[0].schedule;
    return this.#base.root[place[a]] === this.#base.root[place[b]];
  }

  /** Node's island, as any number that is the same throughout it. */
  island(node: number): number {
    return this.#base.root[this.#layers[0].schedule.place[node]];
  }

  /** Potential of a less that of b, volts; 0 where no path joins them. */
  between(a: number, b: number): Bounded {
    if (a === b || !this.joined(a, b)) return noVolts;
    return sum(
      this.#live.map(({ on, network, heldError }) =>
        doubted(network.between(on.schedule.place[a], on.schedule.place[b]), heldError),
      ),
    );
  }

  /** Volts along one element, a less b; 0 where nothing joins its ends. */
  across(element: number): Bounded {
    const { a, b } = this.#shape.elements[element];
    if (a === b || !this.joined(a, b)) return noVolts;
    return sum(
      this.#live.map(({ on, network, heldError }) => {
        const edge = on.edgeOfElement[element];
        if (edge < 0) return noVolts;
        const along = doubted(network.difference(edge), heldError);
        return on.signOfElement[element] === 1 ? along : { ...along, value: complexNegate(along.value) };
      }),
    );
  }

  /** Current through an element from a to b, amperes; undefined in a loop of shorts. */
  amps(element: number): Bounded | undefined {
    const what = this.#elements[element];
    if (!this.#rigid(element) && what !== "short") {
      if (isZero(what)) return noVolts;
      return scaled(this.across(element), what);
    }
    if (!this.#cut.find(element, (e) => this.#rigid(e))) return undefined;
    const { crossing, senses } = this.#cut;
    return sum(
      crossing.map((e, t) => {
        const flow = e < this.#shape.elements.length ? this.amps(e) : this.#currentOf(e - this.#shape.elements.length);
        const { value, error } = flow ?? noVolts;
        return senses[t] === 1 ? { value: complexNegate(value), error } : { value, error };
      }),
    );
  }

  #currentOf(source: number): Bounded {
    return { value: this.#currents[source].amperes, error: 0 };
  }

  #rigid(element: number): boolean {
    return this.#isSource.has(element) || this.#elements[element] === "short";
  }

  /** Ohms, complex, between two points of one island with all sources dead. */
  impedance(a: number, b: number): Bounded {
    if (a === b) return noVolts;
    const { place } = this.#layers[0].schedule;
    return this.#base.port(place[a], place[b]);
  }
}

function sum(terms: readonly Bounded[]): Bounded {
  return terms.reduce(
    (total, term) => ({ value: complexAdd(total.value, term.value), error: total.error + term.error }),
    noVolts,
  );
}

function doubted({ value, error }: Bounded, relative: number): Bounded {
  return { value, error: error + relative * taxicab(value) };
}

function scaled({ value, error }: Bounded, factor: WideComplex): Bounded {
  const product = complexMultiply(value, factor);
  return { value: product, error: error * taxicab(factor) + 2 ** -98 * taxicab(product) };
}
