/**
 * The order in which the nodes of a network are eliminated, and every edge that arises on the way. Made once from the
 * shape; every set of values then runs through the same straight loops. Nodes are renumbered: a node's *place* is its
 * turn. Edge ids are indices into `neighbour`; column k (`start[k]` to `start[k + 1]`) holds the edges from place k to
 * its later neighbours, in order of place.
 */
export interface Schedule {
  readonly nodes: number;
  /** Places from here on are held: never eliminated, their differences are given. */
  readonly free: number;
  /** Node → place. */
  readonly place: Int32Array;
  readonly start: Int32Array;
  /** Edge → place of its later end. */
  readonly neighbour: Int32Array;
  /** Edge → place of its earlier end. */
  readonly owner: Int32Array;
  /** Edges met by eliminating place k, a pair (i < j) of its neighbours each, in loop order, begin at `updateStart[k]`. */
  readonly updateStart: Int32Array;
  readonly updateEdge: Int32Array;
  /** The updates that edge t meets, in their order: `met[metStart[t]]` up to `met[metStart[t + 1]]`. */
  readonly metStart: Int32Array;
  readonly met: Int32Array;
  /** First later neighbour, -1 at the end: the elimination tree. */
  readonly parent: Int32Array;
  /** Edge between two nodes (not places), or -1. */
  edgeOf(a: number, b: number): number;
}

export interface NodePair {
  readonly a: number;
  readonly b: number;
}

/**
 * Orders `nodes` nodes joined by `pairs`: least degree first, ties by least height of the elimination tree, so that
 * chains of joints stay shallow; then the `late` nodes, and last the `held` ones in the order given.
 *
 * @source W. F. Tinney, J. W. Walker, Proc. IEEE 55 (1967) 1801, minimum degree; J. W. H. Liu, SIAM J. Matrix Anal. Appl. 11 (1990) 134, elimination tree (both from memory)
 */
export function schedule(
  nodes: number,
  pairs: readonly NodePair[],
  held: readonly number[] = [],
  late: readonly number[] = [],
): Schedule {
  const columns = eliminationColumns(nodes, pairs, held, late);
  const place = new Int32Array(nodes);
  columns.forEach(({ node }, turn) => {
    place[node] = turn;
  });
  const placeOf = (node: number): number => place[node];

  const start = new Int32Array(nodes + 1);
  const neighbours: number[] = [];
  const owners: number[] = [];
  const edges = new Map<number, number>();
  columns.forEach(({ later }, k) => {
    for (const j of later.map(placeOf).sort((x, y) => x - y)) {
      edges.set(k * nodes + j, neighbours.length);
      neighbours.push(j);
      owners.push(k);
    }
    start[k + 1] = neighbours.length;
  });
  const edgeAt = (p: number, q: number): number => edges.get(Math.min(p, q) * nodes + Math.max(p, q)) ?? -1;

  const updateStart = new Int32Array(nodes + 1);
  const updates: number[] = [];
  const parent = new Int32Array(nodes).fill(-1);
  for (let k = 0; k < nodes; k++) {
    const column = neighbours.slice(start[k], start[k + 1]);
    parent[k] = column[0] ?? -1;
    column.forEach((i, at) => {
      for (const j of column.slice(at + 1)) updates.push(edgeAt(i, j));
    });
    updateStart[k + 1] = updates.length;
  }
  const metBy: number[][] = neighbours.map(() => []);
  for (const [update, edge] of updates.entries()) metBy[edge].push(update);
  const metStart = new Int32Array(neighbours.length + 1);
  for (const [edge, met] of metBy.entries()) metStart[edge + 1] = metStart[edge] + met.length;
  return {
    nodes,
    free: nodes - new Set(held).size,
    place,
    start,
    neighbour: Int32Array.from(neighbours),
    owner: Int32Array.from(owners),
    updateStart,
    updateEdge: Int32Array.from(updates),
    metStart,
    met: Int32Array.from(metBy.flat()),
    parent,
    edgeOf: (a, b) => (a === b ? -1 : edgeAt(placeOf(a), placeOf(b))),
  };
}

interface Column {
  readonly node: number;
  readonly later: readonly number[];
}

/** Eliminates on paper: who goes when, and which neighbours each still had at its turn (the chordal completion). */
function eliminationColumns(
  nodes: number,
  pairs: readonly NodePair[],
  held: readonly number[],
  late: readonly number[],
): Column[] {
  const around: Set<number>[] = Array.from({ length: nodes }, () => new Set());
  const neighboursOf = (node: number): Set<number> => around[node];
  for (const { a, b } of pairs) {
    if (a === b) continue;
    neighboursOf(a).add(b);
    neighboursOf(b).add(a);
  }
  // Turn classes: 0 any time, 1 late, 2 and up: held, one class each to keep their order.
  const turn = new Int32Array(nodes);
  for (const node of late) turn[node] = 1;
  held.forEach((node, at) => {
    turn[node] = 2 + at;
  });
  const height = new Int32Array(nodes);
  const waiting = new Set(Array.from({ length: nodes }, (_, node) => node));
  const columns: Column[] = [];
  while (waiting.size > 0) {
    let best = -1;
    let bestKey = Number.POSITIVE_INFINITY;
    for (const node of waiting) {
      // An end (1 neighbour) has no hurry over a middle (2): peeling a chain from its ends would make it deep.
      const degree = Math.max(neighboursOf(node).size, 2);
      const key = (turn[node] * (nodes + 1) + degree) * (nodes + 1) + height[node];
      if (key < bestKey) {
        best = node;
        bestKey = key;
      }
    }
    waiting.delete(best);
    const later = [...neighboursOf(best)];
    for (const i of later) {
      const ofI = neighboursOf(i);
      ofI.delete(best);
      for (const j of later) if (i !== j) ofI.add(j);
      height[i] = Math.max(height[i], height[best] + 1);
    }
    columns.push({ node: best, later });
  }
  return columns;
}
