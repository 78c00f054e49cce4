import type { Machine } from "../sheet/index.ts";

/** Joints, cord cores and chokes: below this a wire is a wire. */
const WIRE_OHMS = 1;

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

/** Nodes next to each node, over the elements that count. */
export function neighbours(
  machine: Machine,
  counts: (element: Machine["elements"][number]) => boolean,
): Map<number, number[]> {
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
