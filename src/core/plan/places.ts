import { MAINS_PLUG } from "../predict/index.ts";
import type { Machine, Plug, Point } from "../sheet/index.ts";
import type { Scene } from "./scene.ts";

/** A connector with those of its pins that most of the possible machines have, in pin order. */
export interface Connector {
  readonly plug: Plug;
  readonly points: readonly Point[];
}

export function mainsPoints(scene: Scene): Point[] {
  return ["L", "N", "PE"].map((pin) => scene.point(`${MAINS_PLUG}.${pin}`)).filter((point) => point !== undefined);
}

export function partPoints(scene: Scene, part: string, pins: readonly string[]): Point[] {
  return pins.map((pin) => scene.point(`${part}.${pin}`)).filter((point) => point !== undefined);
}

/** Connectors of the likeliest machine whose points most machines have, the cheap ones to reach first. */
export function connectors(scene: Scene): Connector[] {
  const cost = (plug: Plug): number => {
    const group = scene.board.groups.get(plug.access ?? "");
    return group === undefined || scene.state.open.has(group.id) ? 0 : group.openMinutes + group.closeMinutes;
  };
  return scene.machine.plugs
    .filter((plug) => plug.id !== MAINS_PLUG)
    .map((plug) => ({ plug, points: pinsOf(scene.machine, plug).flatMap((point) => scene.point(point.id) ?? []) }))
    .filter(({ points }) => points.length >= 2)
    .sort((a, b) => cost(a.plug) - cost(b.plug));
}

/** Is any of its pins near a suspect? */
export function isNear(scene: Scene): (connector: Connector) => boolean {
  return ({ points }) => points.some((point) => scene.near.has(point.node));
}

function pinsOf(machine: Machine, plug: Plug): Point[] {
  return plug.pins.flatMap((pin) => machine.points[pin.point] ?? []);
}

export function connectorName(plug: Plug): string {
  return `connector ${plug.id} (${plug.ways} pins, pin 1 ${plug.pinOneSays})`;
}

/** All pairs of few pins; of many, neighbours and each with the last. */
export function pinPairs(points: readonly Point[]): (readonly [Point, Point])[] {
  if (points.length <= 4) return pairs(points);
  const last = points.length - 1;
  return pairs(points).filter(([a, b]) => points.indexOf(b) - points.indexOf(a) === 1 || points.indexOf(b) === last);
}

export function pairs(points: readonly Point[]): (readonly [Point, Point])[] {
  return points.flatMap((from, n) => points.slice(n + 1).map((to) => [from, to] as const));
}
