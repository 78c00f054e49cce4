import { neighbours, spread } from "../predict/index.ts";
import type { Machine, Point } from "../sheet/index.ts";

/** Elements between a suspect and a connector at which one would still look for it. */
const NEAR = 3;

/**
 * Nodes within a few elements of these parts. The poles of the supply are not walked through: everything is near to them.
 *
 * @param parts  indices of parts
 */
export function nearTo(machine: Machine, parts: readonly number[], poles: ReadonlySet<number>): ReadonlySet<number> {
  const nodes = parts.flatMap((part) => [...(machine.parts[part]?.pins.values() ?? [])]);
  const inside = machine.elements.filter((element) => parts.includes(element.part)).flatMap(({ a, b }) => [a, b]);
  return spread(
    [...nodes, ...inside],
    neighbours(machine, () => true),
    NEAR,
    poles,
  );
}

/** Above this a path is no branch that one would read end to end. */
const BRANCH_OHMS = 1000;

/**
 * Which nodes belong to one branch in a good machine at rest: joined by windings, heaters, closed contacts and wire.
 *
 * @returns a number by node; equal numbers are joined
 */
export function branches(machine: Machine): Int32Array {
  const root = Int32Array.from({ length: machine.nodes.length }, (_, node) => node);
  const find = (node: number): number => {
    let at = node;
    while (root[at] !== at) at = root[at] as number;
    return at;
  };
  for (const { what, a, b, values } of machine.elements) {
    if (what === "C" || what === "V~" || what === "V=" || what === "leak") continue;
    if ((values[0]?.nominal ?? Number.POSITIVE_INFINITY) > BRANCH_OHMS) continue;
    root[find(a)] = find(b);
  }
  return root.map((_, node) => find(node));
}

/** Points of these that are tied to one of the nodes. */
export function tiedPoints(points: readonly Point[], tied: ReadonlySet<number>): Point[] {
  return points.filter((point) => tied.has(point.node));
}
