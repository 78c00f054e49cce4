import type { Machine, MachineElement, Part } from "../sheet/index.ts";

/** One part on the way between two points, as a drawing shows it. */
export interface TracedPart {
  readonly kind: "part";
  readonly id: string;
  readonly says: string;
  /** What it is to the current: chosen from the element it is passed by. */
  readonly symbol: Symbol;
  /** A contact that is open while nothing runs. */
  readonly isOpen?: true;
}

/** A connection on the way: a pin of a connector, a terminal, a splice. */
export interface TracedJoint {
  readonly kind: "joint";
  readonly id: string;
  readonly says: string;
  /** "X3.2", where the joint is a connector's pin. */
  readonly pin?: string;
  readonly colour?: string;
}

export type Traced = TracedPart | TracedJoint;

/** Symbols of IEC 60617 that a branch is drawn with. */
export type Symbol = "conductor" | "resistor" | "capacitor" | "winding" | "contact" | "source" | "leak";

/** Steps along the way are counted so that the fewest parts win; what is there only by accident comes last. */
const COST: Readonly<Record<MachineElement["what"], number>> = {
  R: 1,
  L: 1,
  switch: 1,
  C: 40,
  X: 40,
  leak: 60,
  "V~": 30,
  "V=": 30,
};
const JOINT = 0.01;
/** Through a contact that is open at rest nothing goes with the plug out. */
const OPEN_AT_REST = 20;

/**
 * What lies between two points of a machine with the plug out: the way with the fewest parts, in order.
 *
 * The mains sources are no way; what is pulled or freed is cut.
 *
 * @param from, to  point ids, as of a probe
 * @returns         parts and joints in order; empty when a point is unknown or there is no way
 */
export function traceBetween(
  machine: Machine,
  from: string,
  to: string,
  cut: { readonly pulled: readonly string[]; readonly freed: readonly string[] } = { pulled: [], freed: [] },
): readonly Traced[] {
  const start = machine.points.find(({ id }) => id === from)?.node;
  const end = machine.points.find(({ id }) => id === to)?.node;
  if (start === undefined || end === undefined || start === end) return [];
  const way = shortest(machine, start, end, openElements(machine, cut)).map((element) => traced(machine, element));
  // A part of several elements in a row (a heater's two halves) is one part of the drawing.
  return way.filter((one, index) => one.id !== way[index - 1]?.id);
}

function openElements(
  machine: Machine,
  { pulled, freed }: { readonly pulled: readonly string[]; readonly freed: readonly string[] },
): ReadonlySet<number> {
  const open = new Set<number>(machine.mains);
  for (const plug of machine.plugs)
    if (pulled.includes(plug.id)) for (const element of plug.elements) open.add(element);
  for (const part of machine.parts) {
    if (part.joint?.part !== undefined && freed.includes(part.joint.part)) {
      for (const element of part.elements) open.add(element);
    }
  }
  return open;
}

/** Elements of the cheapest way, in order (Dijkstra 1959); none when there is no way. */
function shortest(machine: Machine, start: number, end: number, open: ReadonlySet<number>): readonly number[] {
  const size = machine.nodes.length;
  const cost = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const by = new Int32Array(size).fill(-1);
  const done = new Uint8Array(size);
  const at = neighbours(machine, open);
  cost[start] = 0;
  for (;;) {
    let here = -1;
    for (let n = 0; n < size; n++)
      if (done[n] === 0 && cost[n] < (here < 0 ? Number.POSITIVE_INFINITY : cost[here])) here = n;
    if (here < 0) return [];
    if (here === end) break;
    done[here] = 1;
    for (const e of at.get(here) ?? []) {
      const element = machine.elements[e];
      const there = element.a === here ? element.b : element.a;
      const step = costOf(machine, element);
      if (cost[here] + step >= cost[there]) continue;
      cost[there] = cost[here] + step;
      by[there] = e;
    }
  }
  const way: number[] = [];
  for (let n = end; n !== start; ) {
    const e = by[n];
    way.unshift(e);
    n = machine.elements[e].a === n ? machine.elements[e].b : machine.elements[e].a;
  }
  return way;
}

function costOf(machine: Machine, { part, what, values }: MachineElement): number {
  if (machine.parts[part].joint !== undefined) return JOINT;
  return values[0].nominal === Number.POSITIVE_INFINITY ? OPEN_AT_REST : COST[what];
}

function neighbours(machine: Machine, open: ReadonlySet<number>): ReadonlyMap<number, readonly number[]> {
  const at = new Map<number, number[]>();
  for (const [e, { a, b }] of machine.elements.entries()) {
    if (open.has(e) || a === b) continue;
    for (const node of [a, b]) at.set(node, [...(at.get(node) ?? []), e]);
  }
  return at;
}

/** Less than this is a wire, a strap, a core of the cord: no resistor to anybody's eye. */
const CONDUCTOR_OHMS = 0.5;

/** One element as a drawing shows it. */
export function traced(machine: Machine, element: number): Traced {
  const { part: index, what, values } = machine.elements[element];
  const part = machine.parts[index];
  const { nominal } = values[0];
  if (part.joint === undefined) {
    const symbol = what === "R" && nominal < CONDUCTOR_OHMS ? "conductor" : SYMBOLS[what];
    const isOpen = what === "switch" && nominal === Number.POSITIVE_INFINITY;
    return { kind: "part", id: part.id, says: part.says, symbol, ...(isOpen ? { isOpen } : {}) };
  }
  const colour = machine.points.find(({ plug, pin }) => plug === part.joint?.plug && pin === part.joint?.pin)?.colour;
  return {
    kind: "joint",
    id: part.id,
    says: part.says,
    ...pinOf(part),
    ...(colour === undefined ? {} : { colour }),
  };
}

function pinOf({ joint }: Part): { pin?: string } {
  return joint?.plug === undefined || joint.pin === undefined ? {} : { pin: `${joint.plug}.${joint.pin}` };
}

const SYMBOLS: Readonly<Record<MachineElement["what"], Symbol>> = {
  R: "resistor",
  L: "winding",
  X: "winding",
  C: "capacitor",
  switch: "contact",
  leak: "leak",
  "V~": "source",
  "V=": "source",
};
