import { neighbours, tiedTo } from "../predict/index.ts";
import type { Machine, Step } from "../sheet/index.ts";
import type { Scene } from "./scene.ts";

/**
 * Which step of the programme drives what hangs at these nodes: the one with the most of the outputs nearest to them,
 * counted in what lies on the way (its relay, its load, their joints) and never through a pole of the mains, a rail or earth;
 * of equal ones the step that drives the fewest else. Where no output reaches, as at a sensor, the step that drives the most.
 */
export function drivingStep(scene: Scene): (nodes: readonly number[]) => Step | undefined {
  const { machine } = scene;
  const driving = machine.steps.filter(({ drives }) => drives.length > 0);
  const far = new Map<number, ReadonlyMap<number, number>>();
  const walls = wallsOf(scene);
  for (const { output } of driving.flatMap(({ drives }) => drives)) {
    if (!far.has(output)) far.set(output, stepsAway(machine, machine.variables[output]?.id ?? "", walls));
  }
  const away = (output: number, nodes: readonly number[]): number =>
    Math.min(...nodes.map((node) => far.get(output)?.get(node) ?? Number.POSITIVE_INFINITY));
  return (nodes) => {
    const least = Math.min(...[...far.keys()].map((output) => away(output, nodes)));
    const serves = ({ drives }: Step): number =>
      least === Number.POSITIVE_INFINITY
        ? drives.length
        : drives.filter(({ output }) => away(output, nodes) === least).length;
    return [...driving].sort((a, b) => serves(b) - serves(a) || a.drives.length - b.drives.length)[0];
  };
}

/** What everything hangs on, so that a way through it says nothing. */
function wallsOf({ machine, poles }: Scene): ReadonlySet<number> {
  const sources = machine.elements.filter(({ what }) => what === "V=").flatMap(({ a, b }) => [a, b]);
  const earth = machine.points.filter(({ id }) => id === "plug.PE").map(({ node }) => node);
  return new Set([...poles.line, ...poles.neutral, ...tiedTo(machine, [...sources, ...earth])]);
}

/** Nodes with the number of elements between them and an output; a relay joins its coil to its poles. */
function stepsAway(machine: Machine, output: string, walls: ReadonlySet<number>): ReadonlyMap<number, number> {
  const conducting = machine.elements.filter(({ what }) => what !== "leak");
  const own = conducting.filter(({ part }) => machine.parts[part]?.id === output);
  const next = neighbours(machine, (element) => element.what !== "leak" && !own.includes(element));
  for (const part of machine.parts) {
    const elements = conducting.filter((element) => machine.parts[element.part] === part && !own.includes(element));
    if (elements.every(({ set }) => set < 0)) continue;
    const ends = [...new Set(elements.flatMap(({ a, b }) => [a, b]))];
    for (const end of ends) next.set(end, [...(next.get(end) ?? []), ...ends]);
  }
  const away = new Map<number, number>();
  // An output's contact runs from its load to what feeds it: on the feeding side hang all the others.
  let edge = own.map(({ a }) => a);
  for (let steps = 0; edge.length > 0; steps++) {
    const met = edge.filter((node) => !walls.has(node) && !away.has(node));
    for (const node of met) away.set(node, steps);
    edge = met.flatMap((node) => next.get(node) ?? []);
  }
  return away;
}
