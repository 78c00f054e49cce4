import { RealNetwork } from "../matrix/index.ts";
import type { Adjoints } from "./adjoint.ts";
import type { Ohmmeter, Shape } from "./circuit.ts";
import type { Layer } from "./layer.ts";

/** Readings whose estimated relative error is above this are taken again with the two points eliminated last. */
const surePart = 1e-10;

/** Every source taken out; conductances only, so that no reading rests on a difference. */
export class PathOhmmeter implements Ohmmeter {
  readonly g: Float64Array;
  readonly #shape: Shape;
  readonly #layer: Layer;
  readonly #network: RealNetwork;
  readonly #adjoints: Adjoints;
  readonly #noIm: Float64Array;
  /** Elements on each edge, in the order in which they are added up. */
  readonly #onEdge: readonly number[][];
  /** Conductance of each edge before elimination. */
  readonly #loaded: Float64Array;

  constructor(shape: Shape, on: Layer, adjoints: Adjoints) {
    this.#shape = shape;
    this.#layer = on;
    this.#network = new RealNetwork(on.schedule);
    this.#adjoints = adjoints;
    this.g = new Float64Array(shape.elements.length);
    this.#noIm = new Float64Array(shape.elements.length);
    this.#onEdge = Array.from(this.#network.g, () => []);
    for (const [t, edge] of on.edges.entries()) this.#onEdge[edge].push(on.members[t]);
    this.#loaded = new Float64Array(this.#network.g.length);
  }

  solve(): void {
    this.#network.load(this.#layer.members, this.#layer.edges, this.g);
    this.#loaded.set(this.#network.g);
    this.#network.eliminate(false);
  }

  change(element: number, siemens: number): readonly number[] {
    this.g[element] = siemens;
    const edge = this.#layer.edgeOfElement[element];
    if (edge < 0) return [];
    let sum = 0;
    for (const e of this.#onEdge[edge]) sum += this.g[e];
    this.#loaded[edge] = sum;
    this.#network.renew(edge, this.#loaded);
    return this.#network.renewed;
  }

  restsOn(p: number, q: number): readonly number[] {
    const { place, parent } = this.#layer.schedule;
    const places = new Set<number>();
    for (const node of [p, q]) for (let k = place[node]; k >= 0; k = parent[k]) places.add(k);
    return [...places];
  }

  ohms(p: number, q: number): number {
    if (p === q) return 0;
    const network = this.#network;
    const place = this.#layer.schedule.place;
    const from = place[p];
    const to = place[q];
    if (network.root[from] !== network.root[to]) return Number.POSITIVE_INFINITY;
    network.port(from, to);
    if (network.error > surePart * network.re) return this.#adjoints.ohmsWithEndsLast(p, q, this.g, this.#noIm);
    return network.re;
  }

  partials(p: number, q: number): Float64Array {
    const slopes = new Float64Array(this.g.length);
    if (p === q) return slopes;
    const unit = this.#adjoints.unitFlow(p, q, this.g, this.#noIm);
    if (unit === undefined) return slopes;
    for (const e of this.#layer.members)
      if (this.g[e] !== Number.POSITIVE_INFINITY) slopes[e] = (unit.re[e] * this.g[e]) ** 2;
    return slopes;
  }

  because(p: number, q: number): number[] {
    const { root } = this.#network;
    const place = this.#layer.schedule.place;
    const island = root[place[p]];
    if (p === q || island === root[place[q]]) return [];
    return [...this.#layer.members].filter((e) => {
      const { a, b } = this.#shape.elements[e];
      return this.g[e] === 0 && (root[place[a]] === island) !== (root[place[b]] === island);
    });
  }
}
