import type { Shape, Solver } from "./circuit.ts";

/**
 * Current through what has no volts to divide: dead shorts and ideal sources. By Kirchhoff's current law: all that
 * flows in on one side must cross. In a loop of shorts it is undefined (NaN).
 */
export class ShortCurrents {
  re = 0;
  im = 0;
  readonly #shape: Shape;
  readonly #rigid: Uint8Array;
  readonly #around: readonly number[][];
  readonly #seen: Uint8Array;
  readonly #side: number[] = [];

  constructor(shape: Shape) {
    this.#shape = shape;
    this.#rigid = new Uint8Array(shape.elements.length);
    for (const e of shape.sources) this.#rigid[e] = 1;
    const around: number[][] = Array.from({ length: shape.nodes }, () => []);
    shape.elements.forEach(({ a, b }, e) => {
      if (a === b) return;
      around[a].push(e);
      around[b].push(e);
    });
    this.#around = around;
    this.#seen = new Uint8Array(shape.nodes);
  }

  /** Leaves the current from a to b through `element` in `re`, `im`. */
  through(element: number, solver: Solver): void {
    const { elements } = this.#shape;
    const { a, b } = elements[element];
    const side = this.#side;
    side.length = 0;
    side.push(a);
    this.#seen.fill(0);
    this.#seen[a] = 1;
    for (let at = 0; at < side.length; at++) {
      for (const e of this.#around[side[at]]) {
        if (e === element || (this.#rigid[e] === 0 && solver.re[e] !== Number.POSITIVE_INFINITY)) continue;
        const other = elements[e].a === side[at] ? elements[e].b : elements[e].a;
        if (this.#seen[other] === 0) {
          this.#seen[other] = 1;
          side.push(other);
        }
      }
    }
    let re = 0;
    let im = 0;
    if (this.#seen[b] === 1) {
      re = Number.NaN;
      im = Number.NaN;
    } else {
      for (let at = 0; at < side.length; at++) {
        for (const e of this.#around[side[at]]) {
          const { a: from, b: to } = elements[e];
          if (e === element || (this.#seen[from] === 1 && this.#seen[to] === 1)) continue;
          const flow = solver.amps(e);
          const out = this.#seen[from] === 1 ? 1 : -1;
          re -= out * flow.re;
          im -= out * flow.im;
        }
      }
    }
    this.re = re;
    this.im = im;
  }
}
