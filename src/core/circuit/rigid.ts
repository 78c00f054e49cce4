import { complexAdd, complexNegate, complexZero, taxicab, type WideComplex } from "../matrix/index.ts";
import type { PosedElement } from "./posed.ts";

/** A voltage source across points whose difference is already fixed, to something else. */
export interface RigidConflict {
  readonly node: number;
  readonly because: string;
}

/**
 * Looks for loops of dead shorts and ideal voltage sources. A source that closes one is redundant where the loop adds
 * up, and a conflict where it does not; either way it must not be solved for.
 */
export function rigidLoops(
  nodes: number,
  elements: readonly PosedElement[],
): { readonly redundant: readonly number[]; readonly conflicts: readonly RigidConflict[] } {
  const body = new RigidBodies(nodes);
  elements.forEach(({ a, b, what }, e) => {
    if (what === "short") body.join(a, b, complexZero, e);
  });
  const redundant: number[] = [];
  const conflicts: RigidConflict[] = [];
  elements.forEach(({ a, b, what, drive, says }, e) => {
    if (what !== "source") return;
    const fixed = body.join(a, b, drive, e);
    if (fixed === undefined) return;
    redundant.push(e);
    const gap = taxicab(complexAdd(drive, complexNegate(fixed)));
    if (gap <= 1e-25 * (taxicab(drive) + taxicab(fixed))) return;
    const others = body.path(a, b, elements).map((other) => elements[other].says);
    const rivals =
      others.length === 0 ? "joins a node to itself" : `is in a loop without resistance with ${others.join(", ")}`;
    conflicts.push({ node: a, because: `${says} ${rivals}, and their volts do not add up` });
  });
  return { redundant, conflicts };
}

/** Nodes that hang together rigidly, each with its fixed height above its body's root. */
class RigidBodies {
  readonly #root: Int32Array;
  readonly #height: WideComplex[];
  readonly #members: number[][];
  /** Joining elements that closed no loop. */
  readonly #tree: number[] = [];

  constructor(nodes: number) {
    this.#root = Int32Array.from({ length: nodes }, (_, node) => node);
    this.#height = new Array<WideComplex>(nodes).fill(complexZero);
    this.#members = Array.from({ length: nodes }, (_, node) => [node]);
  }

  /** Fixes height(a) − height(b); gives the difference that was fixed already, if it was. */
  join(a: number, b: number, rise: WideComplex, element: number): WideComplex | undefined {
    const between = complexAdd(this.#height[a], complexNegate(this.#height[b]));
    if (this.#root[a] === this.#root[b]) return between;
    // Lift b's body so that a stands `rise` above b.
    const lift = complexAdd(between, complexNegate(rise));
    const from = this.#root[b];
    const to = this.#root[a];
    for (const node of this.#members[from]) {
      this.#root[node] = to;
      this.#height[node] = complexAdd(this.#height[node], lift);
      this.#members[to].push(node);
    }
    this.#members[from] = [];
    this.#tree.push(element);
    return undefined;
  }

  /** The elements that fix a against b. */
  path(a: number, b: number, elements: readonly { readonly a: number; readonly b: number }[]): number[] {
    const reached = new Map<number, readonly number[]>([[a, []]]);
    for (const [node, way] of reached) {
      for (const e of this.#tree) {
        const ends = elements[e];
        const other = ends.a === node ? ends.b : ends.b === node ? ends.a : -1;
        if (other >= 0 && !reached.has(other)) reached.set(other, [...way, e]);
      }
    }
    return [...(reached.get(b) ?? [])];
  }
}
