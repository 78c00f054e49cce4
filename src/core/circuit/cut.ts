import type { NodePair } from "../matrix/index.ts";

/**
 * What has no volts to divide (dead shorts, ideal sources) gets its current from Kirchhoff's law: all that leaves the
 * nodes on one side of it must have come through it. The side is whatever hangs together by other such elements.
 */
export class KirchhoffCut {
  /** Elements that leave the side found last, and +1 where the current a to b leaves it, -1 where it enters. */
  readonly crossing: number[] = [];
  readonly senses: number[] = [];
  readonly #elements: readonly NodePair[];
  readonly #around: readonly number[][];
  /** 1 for the nodes on the side of the element's a. */
  readonly inside: Uint8Array;
  readonly #side: number[] = [];

  constructor(nodes: number, elements: readonly NodePair[]) {
    const around: number[][] = Array.from({ length: nodes }, () => []);
    elements.forEach(({ a, b }, e) => {
      if (a === b) return;
      around[a].push(e);
      around[b].push(e);
    });
    this.#elements = elements;
    this.#around = around;
    this.inside = new Uint8Array(nodes);
  }

  /** Finds the side of `element`'s a; false where a loop of rigid elements leaves its current undefined. */
  find(element: number, rigid: (element: number) => boolean): boolean {
    const { a, b } = this.#elements[element];
    const side = this.#side;
    const inside = this.inside;
    this.crossing.length = 0;
    this.senses.length = 0;
    if (a === b) return false;
    inside.fill(0);
    inside[a] = 1;
    side.length = 0;
    side.push(a);
    for (let at = 0; at < side.length; at++) {
      for (const e of this.#around[side[at]]) {
        if (e === element || !rigid(e)) continue;
        const other = this.#elements[e].a === side[at] ? this.#elements[e].b : this.#elements[e].a;
        if (inside[other] === 1) continue;
        inside[other] = 1;
        side.push(other);
      }
    }
    if (inside[b] === 1) return false;
    for (const node of side) {
      for (const e of this.#around[node]) {
        const { a: from, b: to } = this.#elements[e];
        if (e === element || inside[from] === inside[to]) continue;
        this.crossing.push(e);
        this.senses.push(inside[from] === 1 ? 1 : -1);
      }
    }
    return true;
  }
}
