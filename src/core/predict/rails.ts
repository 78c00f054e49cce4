import type { Machine, MachineElement, Point } from "../sheet/index.ts";
import { neighbours, spread, tiedTo } from "./tied.ts";

/** The appliance's own mains plug, as houses and sheets name it. */
export const MAINS_PLUG = "plug";

/** A point that hangs on a rail: its node, and the nodes at the 0 V of what feeds it. */
interface RailPoint {
  readonly node: number;
  readonly zeros: ReadonlySet<number>;
}

/** Between which points a meter may be put while the machine is fed: rail to rail only, whatever the 0 V hangs on. */
export interface RailRule {
  /** It hangs on a rail in a machine that is still possible. */
  readonly isOnRail: (point: Point) => boolean;
  /** Both on one rail or neither on any, in all machines that are still possible. */
  readonly isOneSide: (from: Point, to: Point) => boolean;
  /** Neither on any rail, or one is the 0 V of the rail that the other hangs on, in all machines still possible. */
  readonly isToOwnZero: (from: Point, to: Point) => boolean;
}

/** The rule that holds whichever of these machines is on the bench: a pin may be mains in one and a sensor in the next. */
export function railRule(machines: readonly Machine[]): RailRule {
  const rails = machines.map(railPoints);
  const inAll =
    (suits: (a: RailPoint, b: RailPoint) => boolean): RailRule["isOneSide"] =>
    (from, to) =>
      rails.every((points) => {
        const [a, b] = [points.get(from.id), points.get(to.id)];
        return a === undefined || b === undefined ? a === b : suits(a, b);
      });
  return {
    isOnRail: ({ id }) => rails.some((points) => points.has(id)),
    isOneSide: inAll((a, b) => [...a.zeros].some((node) => b.zeros.has(node))),
    isToOwnZero: inAll((a, b) => a.zeros.has(b.node) || b.zeros.has(a.node)),
  };
}

/** From here a resistor only senses: by one a board sees whether mains stands on a wire, and its rail is no part of it. */
const SENSES_OHMS = 300_000;

const remembered = new WeakMap<Machine, ReadonlyMap<string, RailPoint>>();

/**
 * Points that hang on a rail, by id: whatever a low-voltage source reaches, through anything, short of the mains. Two
 * things are cut, for a rail that is on the mains is a rail all the same: what ties the source's own part to the mains,
 * and resistors that sense it.
 */
function railPoints(machine: Machine): ReadonlyMap<string, RailPoint> {
  const known = remembered.get(machine);
  if (known !== undefined) return known;
  const sources = machine.elements.filter(({ what }) => what === "V=");
  const feeding = new Set(sources.map(({ part }) => part));
  const plug = ["L", "N", "PE"].map((pin) => `${MAINS_PLUG}.${pin}`);
  const pins = machine.points.filter(({ id }) => plug.includes(id)).map(({ node }) => node);
  const wired = tiedTo(machine, pins, feeding);
  const holding = neighbours(
    machine,
    (element) => element.what !== "leak" && !senses(element) && !feeding.has(element.part),
  );
  const mains = spread(pins, holding, Number.POSITIVE_INFINITY, new Set());
  const next = neighbours(machine, (element) => {
    const touches = (nodes: ReadonlySet<number>): boolean => nodes.has(element.a) || nodes.has(element.b);
    const isCut = (feeding.has(element.part) && touches(wired)) || (senses(element) && touches(mains));
    return element.what !== "leak" && !isCut;
  });
  const zerosOf = new Map<number, Set<number>>();
  for (const { a, b } of sources) {
    const zeros = tiedTo(machine, [b], feeding);
    for (const node of spread([a, b], next, Number.POSITIVE_INFINITY, wired)) {
      if (!wired.has(node)) zerosOf.set(node, new Set([...(zerosOf.get(node) ?? []), ...zeros]));
    }
  }
  const points = machine.points.flatMap(({ id, node }) => {
    const zeros = zerosOf.get(node);
    return zeros === undefined ? [] : [[id, { node, zeros }] as const];
  });
  const made = new Map(points);
  remembered.set(machine, made);
  return made;
}

function senses({ what, values }: MachineElement): boolean {
  return what === "R" && values.every(({ nominal }) => nominal >= SENSES_OHMS);
}
