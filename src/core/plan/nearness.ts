import type { Machine, Point } from "../sheet/index.ts";

/** Joints, cord cores and chokes: below this a wire is a wire. */
const WIRE_OHMS = 1;
/** Elements between a suspect and a connector at which one would still look for it. */
const NEAR = 3;

/** Nodes that hang on these by nothing but wire: joints, cores, chokes. */
export function tiedTo(machine: Machine, nodes: readonly number[]): ReadonlySet<number> {
  const next = neighbours(
    machine,
    (element) => element.what === "R" && (element.values[0]?.nominal ?? 1e9) < WIRE_OHMS,
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

/** Points of these that are tied to one of the nodes. */
export function tiedPoints(points: readonly Point[], tied: ReadonlySet<number>): Point[] {
  return points.filter((point) => tied.has(point.node));
}

function neighbours(
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

function spread(
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
