import type { Machine, Point } from "../sheet/index.ts";

/** Joints, cord cores and chokes: below this a wire is a wire. */
const WIRE_OHMS = 1;
/** Elements between a suspect and a connector at which one would still look for it. */
const NEAR = 3;

/**
 * Nodes that hang on these by nothing but wire: joints, cores, chokes.
 *
 * @param without  indices of parts that are not gone through
 */
export function tiedTo(
  machine: Machine,
  nodes: readonly number[],
  without: ReadonlySet<number> = new Set(),
): ReadonlySet<number> {
  const next = neighbours(
    machine,
    ({ what, values, part }) => what === "R" && (values[0]?.nominal ?? 1e9) < WIRE_OHMS && !without.has(part),
  );
  return spread(nodes, next, Number.POSITIVE_INFINITY, new Set());
}

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

/** Nodes next to each node, over the elements that count. */
export function neighbours(
  machine: Machine,
  counts: (element: Machine["elements"][number]) => boolean,
): ReadonlyMap<number, number[]> {
  const next = new Map<number, number[]>();
  for (const element of machine.elements) {
    if (!counts(element)) continue;
    next.set(element.a, [...(next.get(element.a) ?? []), element.b]);
    next.set(element.b, [...(next.get(element.b) ?? []), element.a]);
  }
  return next;
}

/** Nodes reached from these in at most so many steps; walls are reached and not gone through. */
export function spread(
  from: readonly number[],
  next: ReadonlyMap<number, readonly number[]>,
  steps: number,
  walls: ReadonlySet<number>,
): ReadonlySet<number> {
  const reached = new Set(from);
  let edge = [...reached];
  for (let step = 0; step < steps && edge.length > 0; step++) {
    const further: number[] = [];
    for (const node of edge) {
      if (walls.has(node)) continue;
      for (const other of next.get(node) ?? []) {
        if (reached.has(other)) continue;
        reached.add(other);
        further.push(other);
      }
    }
    edge = further;
  }
  return reached;
}
