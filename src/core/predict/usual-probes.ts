import { type Quantity, quantityOf } from "../meter/index.ts";
import type { Machine, Part, Plug, Point } from "../sheet/index.ts";
import type { Probe, ProbeState } from "./prediction.ts";
import { probeOf } from "./probe.ts";
import { MAINS_PLUG, type RailRule, railRule } from "./rails.ts";

/**
 * How near to danger a probe is: nothing opened; opened, dead; leads clipped on dead and then energised; or held by hand
 * on live parts.
 */
export type ProbeClass = "closed" | "opened" | "clipped" | "handheld";

/** A probe with the place it is taken at. */
export interface UsualProbe {
  readonly probe: Probe;
  readonly class: ProbeClass;
  /** Connector or part it is taken at; absent at the mains plug. */
  readonly at?: { readonly plug: Plug } | { readonly part: Part };
  readonly access?: string;
}

/** A connector of more ways is read from each pin to the last two only: all pairs of a wide one tell nothing more. */
const MOST_PINS = 6;

/**
 * Every measurement worth naming on a machine, place by place, in pin order: at the mains plug, the plug meter and the
 * clamp per step, each connector pulled and read from the wire side, each part at its own terminals, volts clipped on, a rail
 * never against the mains. What a technician could ask of the sheet, without regard to what is suspected.
 */
export function usualProbes(machine: Machine): readonly UsualProbe[] {
  const points = new Map(machine.points.map((point) => [point.id, point]));
  const rails = railRule([machine]);
  return [
    ...atMainsPlug(machine, points),
    ...machine.plugs.filter((plug) => plug.id !== MAINS_PLUG).flatMap((plug) => atConnector(machine, plug, rails)),
    ...machine.parts.flatMap((part) => atPart(part, points)),
    ...ofCauses(machine),
  ];
}

/**
 * Volts that only a hand can take: across the terminals of each part, step by step, where no clip can be put on. No list
 * of readings names them and no step asks for them unasked; testability counts what they would add.
 */
export function handheldProbes(machine: Machine): readonly UsualProbe[] {
  const points = new Map(machine.points.map((point) => [point.id, point]));
  const rails = railRule([machine]);
  return machine.parts.flatMap((part) => {
    const terminals = terminalsOf(part, points).flatMap((id) => points.get(id) ?? []);
    const access = part.access === undefined ? {} : { access: part.access };
    return pairs(terminals)
      .filter(([from, to]) => mannerOf(from, to) === "handheld" && rails.isOneSide(from, to))
      .flatMap(([from, to]) =>
        machine.steps.map(
          ({ id }): UsualProbe => ({
            class: "handheld",
            at: { part },
            ...access,
            probe: probeOf({ quantity: "volts", from: from.id, to: to.id, state: { kind: "live", step: id } }),
          }),
        ),
      );
  });
}

function atMainsPlug(machine: Machine, points: ReadonlyMap<string, Point>): UsualProbe[] {
  const pins = ["L", "L1", "L2", "L3", "N", "PE"].map((pin) => `${MAINS_PLUG}.${pin}`).filter((id) => points.has(id));
  const dead = pairs(pins).map(([from, to]) => closed("ohms", atRest([]), from, to));
  const earth = pins.find((id) => id.endsWith(".PE"));
  const [first, ...others] = pins.filter((id) => id !== earth);
  const insulation: UsualProbe[] =
    earth === undefined || first === undefined
      ? []
      : [
          {
            class: "closed",
            probe: probeOf({
              quantity: "insulation ohms",
              from: first,
              to: earth,
              joinedWith: others,
              state: atRest([]),
            }),
          },
        ];
  const live = machine.steps.flatMap(({ id }) =>
    (["watts", "leakage amps"] as const).map((quantity) => closed(quantity, { kind: "live", step: id })),
  );
  return [...dead, ...insulation, ...live];
}

function atConnector(machine: Machine, plug: Plug, rails: RailRule): UsualProbe[] {
  const pins = plug.pins.map(({ point }) => machine.points[point] as Point);
  const access = plug.access === undefined ? {} : { access: plug.access };
  const between =
    pins.length <= MOST_PINS ? pairs(pins) : pins.slice(0, -1).map((pin) => [pin, pins.at(-1) as Point] as const);
  const dead = between.map(([from, to]) => ({
    class: "opened" as const,
    at: { plug },
    ...access,
    probe: probeOf({ quantity: "ohms", from: from.id, to: to.id, state: atRest([plug.id]) }),
  }));
  const live = between.flatMap(([from, to]): UsualProbe[] => {
    const manner = mannerOf(from, to);
    if (manner === undefined || !rails.isOneSide(from, to)) return [];
    return machine.steps.map(({ id }) => ({
      class: manner,
      at: { plug },
      ...access,
      probe: probeOf({ quantity: "volts", from: from.id, to: to.id, state: { kind: "live", step: id } }),
    }));
  });
  return [...dead, ...live];
}

function mannerOf(from: Point, to: Point): "clipped" | "handheld" | undefined {
  if (from.live === "never" || to.live === "never") return undefined;
  return from.live === "clipped" && to.live === "clipped" ? "clipped" : "handheld";
}

function atPart(part: Part, points: ReadonlyMap<string, Point>): UsualProbe[] {
  const terminals = terminalsOf(part, points);
  const access = part.access === undefined ? {} : { access: part.access };
  return pairs(terminals).map(([from, to]) => ({
    class: "opened",
    at: { part },
    ...access,
    probe: probeOf({ quantity: "ohms", from, to, state: atRest([]) }),
  }));
}

function terminalsOf(part: Part, points: ReadonlyMap<string, Point>): readonly string[] {
  return [...part.pins.keys()].map((pin) => `${part.id}.${pin}`).filter((id) => points.has(id));
}

function ofCauses(machine: Machine): UsualProbe[] {
  return machine.causes.flatMap((cause) =>
    cause.measures.map((measure) => ({
      class: "closed" as const,
      ...(measure.access === undefined ? {} : { access: measure.access }),
      probe: probeOf({
        quantity: quantityOf(measure.unit),
        measure: { cause: cause.id, id: measure.id },
        state: atRest([]),
      }),
    })),
  );
}

function closed(quantity: Quantity, state: ProbeState, from?: string, to?: string): UsualProbe {
  const points = from === undefined || to === undefined ? {} : { from, to };
  return { class: "closed", probe: probeOf({ quantity, state, ...points }) };
}

function atRest(pulled: readonly string[]): ProbeState {
  return { kind: "dead", pulled, freed: [], hands: new Map() };
}

function pairs<T>(items: readonly T[]): (readonly [T, T])[] {
  return items.flatMap((a, i) => items.slice(i + 1).map((b) => [a, b] as const));
}
