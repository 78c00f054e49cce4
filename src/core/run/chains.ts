import type { Machine } from "../sheet/index.ts";
import { isSource } from "./network.ts";

/**
 * Elements in series: between two neighbours of a chain lies a node at which nothing else ends, so the same current flows
 * through all of them. Where on its chain a bad joint sits makes no difference to anything but what lies beside it.
 */
export class Chains {
  /** Chain of each element. */
  readonly of: Int32Array;
  /** Its place along that chain. */
  readonly place: Int32Array;
  /** Node behind each place, by chain. */
  readonly #nodes: number[][] = [];

  constructor({ elements, nodes }: Machine) {
    const ends: number[][] = nodes.map(() => []);
    for (const [element, { a, b }] of elements.entries()) {
      ends[a].push(element);
      ends[b].push(element);
    }
    /** The other element at a node where just two that are no sources meet; -1 where no chain goes on. */
    const beyond = (element: number, node: number): number => {
      const [one, other] = ends[node];
      if (ends[node].length !== 2 || one === other || isSource(elements[one].what) || isSource(elements[other].what))
        return -1;
      return one === element ? other : one;
    };
    const across = (element: number, node: number): number =>
      elements[element].a === node ? elements[element].b : elements[element].a;

    this.of = new Int32Array(elements.length).fill(-1);
    this.place = new Int32Array(elements.length);
    for (let seed = 0; seed < elements.length; seed++) {
      if (this.of[seed] >= 0) continue;
      // Back to where the chain begins, or once round a ring; then along it.
      let first = seed;
      let node = elements[seed].a;
      for (let before = beyond(first, node); before >= 0 && before !== seed; before = beyond(first, node)) {
        first = before;
        node = across(first, node);
      }
      const between: number[] = [];
      let here = first;
      for (let place = 0; here >= 0 && this.of[here] < 0; place++) {
        this.of[here] = this.#nodes.length;
        this.place[here] = place;
        node = across(here, node);
        between.push(node);
        here = beyond(here, node);
      }
      this.#nodes.push(between);
    }
  }

  /** Nodes that lie between two elements of one chain. */
  nodesBetween(one: number, other: number): readonly number[] {
    const from = Math.min(this.place[one], this.place[other]);
    const to = Math.max(this.place[one], this.place[other]);
    return this.#nodes[this.of[one]].slice(from, to);
  }
}
