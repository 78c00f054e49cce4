import type { Machine, Part } from "../sheet/index.ts";
import type { Probe } from "./prediction.ts";
import type { Predictor } from "./predictor.ts";
import { probeOf } from "./probe.ts";

/** Any meter: what is asked is whether there is a path, not how long. */
const INPUT_OHMS = 1e7;

/**
 * The contact that keeps a good machine from showing a path, plug out: open at rest itself, while the meter would read on
 * to both of its sides. A running contact and a relay pole are so; nothing is wrong with them.
 *
 * @param probe  ohms between two points; OL in a good machine
 * @returns      the part, or `undefined` where no single contact is the reason
 */
export function openAtRest(predictor: Predictor, probe: Probe): Part | undefined {
  const { from, to } = probe;
  if (from === undefined || to === undefined) return undefined;
  const { machine } = predictor;
  const joins = (a: string, b: string): boolean => {
    if (a === b) return true;
    const ohms = probeOf({ quantity: "ohms", from: a, to: b, state: probe.state });
    return predictor.has(ohms) && Number.isFinite(predictor.value(ohms, INPUT_OHMS, []));
  };
  const own = ({ id, pins }: Part): boolean =>
    [from, to].every((at) => [...pins.keys()].some((pin) => at === `${id}.${pin}`));
  return [...machine.parts]
    .sort((a, b) => Number(own(b)) - Number(own(a)))
    .find((part) =>
      contactsOf(machine, part).some(
        ([a, b]) => !joins(a, b) && ((joins(from, a) && joins(b, to)) || (joins(from, b) && joins(a, to))),
      ),
    );
}

/** Pairs of points with a contact of this part between them. */
function contactsOf(machine: Machine, part: Part): readonly (readonly [string, string])[] {
  const pins = [...part.pins].filter(([pin]) => machine.points.some(({ id }) => id === `${part.id}.${pin}`));
  const pinAt = (node: number): string | undefined => pins.find(([, at]) => at === node)?.[0];
  return part.elements.flatMap((index) => {
    const element = machine.elements[index];
    if (element?.what !== "switch") return [];
    const [a, b] = [pinAt(element.a), pinAt(element.b)];
    return a === undefined || b === undefined ? [] : [[`${part.id}.${a}`, `${part.id}.${b}`] as const];
  });
}
