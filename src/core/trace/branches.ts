import type { Machine, MachineElement } from "../sheet/index.ts";
import { type Traced, traced } from "./trace.ts";

/** A point that a probe can touch. */
export interface BranchPoint {
  readonly id: string;
  readonly says: string;
}

/** One way from pole to pole of a supply, as a row of a drawing; or what all rows of that supply have in common. */
export interface Branch {
  /** The same machine gives a branch the same id. */
  readonly id: string;
  /** The part with the most ohms on it. */
  readonly says: string;
  readonly supply: "mains" | "low voltage";
  /** `in`, `back`: the way into the machine and out of it again, which its rows have in common and do not repeat. */
  readonly role: "in" | "load" | "back";
  readonly way: readonly Traced[];
  /** What can be probed before each piece of the way, and after the last. */
  readonly points: readonly (BranchPoint | undefined)[];
}

/** A way by its elements, and the nodes it passes: one more than elements. */
interface Loop {
  readonly source: number;
  /** The element that it is the cheapest way through. */
  readonly through: number;
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
  readonly cost: number;
}

/** Costs of passing an element: the fewest parts win, and no way leads through another's load. */
const JOINT = 0.01;
const THROUGH = 1;
const LOAD = 50;
const LOAD_OHMS = 2;
const ALL_BUT_OPEN = 80;
/** As much of its rows must share a way in for it to be told once. */
const SHARED = 0.7;

/**
 * The circuit of a machine as branches: for every part the cheapest way from one pole of its supply through the part to the
 * other, contacts counted as closed. Branches that hold no part of their own are left out; longest first within a supply,
 * the mains before what a board makes of them. Leaks and the ends of sources are no way.
 */
export function branchesOf(machine: Machine): readonly Branch[] {
  const sources = machine.elements.flatMap(({ what }, e) => (what === "V~" || what === "V=" ? [e] : []));
  const best = new Map<number, Loop>();
  for (const source of sources) {
    for (const loop of loopsOf(machine, source)) {
      const known = best.get(loop.through);
      if (known === undefined || loop.cost < known.cost) best.set(loop.through, loop);
    }
  }
  const loops = withParts(machine, [...best.values()]);
  return sources.flatMap((source) => {
    const rows = loops.filter((loop) => loop.source === source);
    return rows.length === 0 ? [] : rowsOf(machine, rows);
  });
}

/** For every element the ways through it from pole to pole, one way round and the other. */
function loopsOf(machine: Machine, source: number): readonly Loop[] {
  const { a: plus, b: minus } = machine.elements[source];
  const from = treeOf(machine, plus);
  const to = treeOf(machine, minus);
  return machine.elements.flatMap((element, e): readonly Loop[] => {
    if (costOf(machine, element) === undefined || element.a === element.b) return [];
    const ways = [joined(from, to, element.a, e, element.b), joined(from, to, element.b, e, element.a)];
    return ways.flatMap((way) => (way === undefined ? [] : [{ source, through: e, ...way }]));
  });
}

interface Tree {
  readonly cost: Float64Array;
  /** Element by which a node was reached, and the node before it; -1 at the root and where there is no way. */
  readonly by: Int32Array;
  readonly before: Int32Array;
}

function joined(from: Tree, to: Tree, a: number, e: number, b: number): Omit<Loop, "source" | "through"> | undefined {
  const cost = from.cost[a] + to.cost[b];
  if (!Number.isFinite(cost)) return undefined;
  const there = climb(from, a);
  const back = climb(to, b);
  const nodes = [...there.nodes.reverse(), ...back.nodes];
  if (new Set(nodes).size < nodes.length) return undefined;
  return { elements: [...there.elements.reverse(), e, ...back.elements], nodes, cost };
}

/** From a node to the root of its tree. */
function climb({ by, before }: Tree, from: number): { readonly elements: number[]; readonly nodes: number[] } {
  const elements: number[] = [];
  const nodes = [from];
  for (let node = from; by[node] >= 0; node = before[node]) {
    elements.push(by[node]);
    nodes.push(before[node]);
  }
  return { elements, nodes };
}

/** Cheapest ways from one node to all others (Dijkstra 1959). */
function treeOf(machine: Machine, root: number): Tree {
  const size = machine.nodes.length;
  const cost = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const by = new Int32Array(size).fill(-1);
  const before = new Int32Array(size).fill(-1);
  const left = new Set(machine.nodes.keys());
  cost[root] = 0;
  const edges = machine.elements.map((element) => costOf(machine, element));
  while (left.size > 0) {
    const here = [...left].reduce((least, node) => (cost[node] < cost[least] ? node : least));
    left.delete(here);
    if (!Number.isFinite(cost[here])) break;
    for (const [e, { a, b }] of machine.elements.entries()) {
      const step = edges[e];
      if (step === undefined || (a !== here && b !== here)) continue;
      const there = a === here ? b : a;
      if (cost[here] + step >= cost[there]) continue;
      cost[there] = cost[here] + step;
      by[there] = e;
      before[there] = here;
    }
  }
  return { cost, by, before };
}

/** Undefined where an element is no way at all: a source, a leak, what is open in every state. */
function costOf(machine: Machine, element: MachineElement): number | undefined {
  const { what, part } = element;
  if (what === "V~" || what === "V=" || what === "leak") return undefined;
  if (machine.parts[part].joint !== undefined) return JOINT;
  const ohms = ohmsOf(machine, element);
  if (!Number.isFinite(ohms)) return undefined;
  if (what === "C" || ohms >= 1e5) return ALL_BUT_OPEN;
  return ohms < LOAD_OHMS ? THROUGH : LOAD;
}

/** Ohms of an element in the state in which it has least; a capacitor's at the frequency of the supply. */
function ohmsOf({ supply }: Machine, { what, values }: MachineElement): number {
  const least = Math.min(...values.map(({ nominal }) => nominal));
  const omega = 2 * Math.PI * (supply.hertz || 50);
  return what === "C" ? 1 / (omega * least) : what === "L" ? omega * least : least;
}

/** Longest first, and each only if it has a part, or a winding of one, that none before it has. */
function withParts({ elements, parts }: Machine, loops: readonly Loop[]): readonly Loop[] {
  const partsOf = (loop: Loop): readonly number[] =>
    loop.elements.map((e) => elements[e].part).filter((part) => parts[part].joint === undefined);
  const windingsOf = (loop: Loop): readonly string[] =>
    loop.elements.flatMap((e) => (elements[e].what === "L" || elements[e].what === "X" ? [elements[e].id] : []));
  const told = new Set<number | string>();
  return [...loops]
    .sort((one, other) => new Set(partsOf(other)).size - new Set(partsOf(one)).size)
    .filter((loop) => {
      const all = [...partsOf(loop), ...windingsOf(loop)];
      const isNew = all.some((one) => !told.has(one));
      for (const one of all) told.add(one);
      return isNew;
    });
}

/** Rows of one supply: what most have in common stands once, before and after them. */
function rowsOf(machine: Machine, loops: readonly Loop[]): readonly Branch[] {
  const ahead = common(loops.map(({ elements }) => elements));
  const behind = common(loops.map(({ elements }) => [...elements].reverse()));
  const ends = (loop: Loop): readonly [number, number] => {
    const { elements } = loop;
    const from = ahead.every((e, i) => elements[i] === e) ? ahead.length : 0;
    const to = behind.every((e, i) => elements[elements.length - 1 - i] === e) ? behind.length : 0;
    return [from, elements.length - to];
  };
  const cut = (loop: Loop, from: number, to: number): Loop => ({
    ...loop,
    elements: loop.elements.slice(from, to),
    nodes: loop.nodes.slice(from, to + 1),
  });
  const whole = loops.find((loop) => {
    const [from, to] = ends(loop);
    return from === ahead.length && to === loop.elements.length - behind.length && from < to;
  });
  if (whole === undefined) return loops.map((loop) => rowOf(machine, loop, "load"));
  const [from, to] = ends(whole);
  return [
    ...(from === 0 ? [] : [rowOf(machine, cut(whole, 0, from), "in")]),
    ...loops.flatMap((loop) => {
      const [first, last] = ends(loop);
      return first < last ? [rowOf(machine, cut(loop, first, last), "load")] : [];
    }),
    ...(to === whole.elements.length ? [] : [rowOf(machine, cut(whole, to, whole.elements.length), "back")]),
  ];
}

/** The longest beginning that so much of the rows share. */
function common(rows: readonly (readonly number[])[]): readonly number[] {
  if (rows.length < 2) return [];
  let shared: readonly (readonly number[])[] = rows;
  const begun: number[] = [];
  for (;;) {
    const counts = new Map<number, (readonly number[])[]>();
    for (const row of shared) {
      const next = row[begun.length];
      if (next !== undefined) counts.set(next, [...(counts.get(next) ?? []), row]);
    }
    const most = [...counts].sort(([, a], [, b]) => b.length - a.length)[0];
    if (most === undefined || most[1].length < 2 || most[1].length < SHARED * rows.length) return begun;
    begun.push(most[0]);
    shared = most[1];
  }
}

function rowOf(machine: Machine, { source, elements, nodes }: Loop, role: Branch["role"]): Branch {
  const way: Traced[] = [];
  const points: (BranchPoint | undefined)[] = [pointAt(machine, nodes[0])];
  for (const [n, e] of elements.entries()) {
    const one = traced(machine, e);
    // A part of several elements in a row is one part of the drawing.
    if (way.at(-1)?.id === one.id) points[points.length - 1] = pointAt(machine, nodes[n + 1]);
    else {
      way.push(one);
      points.push(pointAt(machine, nodes[n + 1]));
    }
  }
  const parts = elements.filter((e) => machine.parts[machine.elements[e].part].joint === undefined);
  const load = parts.reduce<number | undefined>(
    (most, e) =>
      most === undefined || ohmsOf(machine, machine.elements[e]) > ohmsOf(machine, machine.elements[most]) ? e : most,
    undefined,
  );
  const supply = machine.elements[source].what === "V~" ? "mains" : "low voltage";
  return {
    id: `${machine.elements[source].id} ${role} ${load === undefined ? "" : machine.elements[load].id}`,
    says: load === undefined ? "" : machine.parts[machine.elements[load].part].says,
    supply,
    role,
    way,
    points,
  };
}

/** What can be probed at a node: a connector's pin rather than a terminal. */
function pointAt({ points }: Machine, node: number): BranchPoint | undefined {
  const here = points.filter((point) => point.node === node);
  const one = here.find(({ plug }) => plug !== undefined) ?? here[0];
  return one === undefined ? undefined : { id: one.id, says: one.says };
}
