import type { RailRule } from "../predict/index.ts";
import type { Machine, Part } from "../sheet/index.ts";
import type { drivingStep } from "./driving-step.ts";
import type { Offer } from "./offer.ts";
import { partPoints } from "./places.ts";
import type { Scene, Suspect } from "./scene.ts";
import { liveVolts, voltsOffer } from "./volts-offer.ts";

/**
 * Leads clipped to the legs of a part that the sheet lets be clipped. Of a relay: volts over its coil and over its pole
 * while it is commanded; they part what commands it (no volts over the coil), its pole (mains volts, or more than a joint
 * may drop) and what lies beyond (nothing over the pole). Of a supply: its rails, rail to rail only.
 */
export function legOffers(scene: Scene, stepFor: ReturnType<typeof drivingStep>, rails: RailRule): Offer[] {
  return clippedParts(scene).flatMap((part) => {
    const across = legPairs(scene.machine, part).flatMap(([from, to]) => {
      const [a, b] = partPoints(scene, part.id, [from, to]);
      return a === undefined || b === undefined || !rails.isOneSide(a, b) ? [] : [[a, b] as const];
    });
    const step = stepFor([...part.pins.values()]);
    if (step === undefined) return [];
    return voltsOffer(scene, {
      id: part.id,
      says: `the legs of the ${part.says}`,
      energy: "clipped",
      step,
      access: part.access,
      questions: across.flatMap(([from, to]) => liveVolts(scene, step, rails, from, to)),
      sheetCautions: part.instance.hazards,
    });
  });
}

/** Parts with legs to clip to that are suspected, or that a suspected output or joint belongs to. */
function clippedParts(scene: Scene): Part[] {
  return scene.machine.parts.filter((part) => {
    const points = partPoints(scene, part.id, [...part.pins.keys()]);
    return points.length > 1 && points.every(({ live }) => live === "clipped") && isSuspected(scene, part);
  });
}

function isSuspected(scene: Scene, part: Part): boolean {
  return scene.suspects.some(
    (suspect: Suspect) =>
      suspect.part === part || [...part.pins.values()].some((node) => touches(scene, suspect, node)),
  );
}

/** Poles of the supply touch everything, and say nothing. */
function touches(scene: Scene, { part }: Suspect, node: number): boolean {
  if (part === undefined || scene.poles.line.has(node) || scene.poles.neutral.has(node)) return false;
  return [...part.pins.values()].includes(node);
}

/** Less is a wire, over which there is nothing to read. */
const WIRE_OHMS = 0.01;

/**
 * Legs between which a part is worth reading: those joined inside it without passing another of its legs. Of a relay the
 * coil and each pole; of a supply the mains and each rail with its 0 V, but never a rail with the mains.
 */
export function legPairs(machine: Machine, part: Part): readonly (readonly [string, string])[] {
  const elements = part.elements
    .flatMap((index) => machine.elements[index] ?? [])
    .filter(({ what, values }) => what !== "leak" && !(what === "R" && (values[0]?.nominal ?? 1) < WIRE_OHMS));
  const pins = [...part.pins];
  return pins.flatMap(([from, node], n) =>
    pins.slice(n + 1).flatMap(([to, other]) => (isJoined(node, other) ? [[from, to] as const] : [])),
  );

  function isJoined(from: number, to: number): boolean {
    const seen = new Set(part.pins.values());
    const edge = [from];
    for (let node = edge.pop(); node !== undefined; node = edge.pop()) {
      for (const { a, b } of elements) {
        if (a !== node && b !== node) continue;
        const next = a === node ? b : a;
        if (next === to) return true;
        if (!seen.has(next)) edge.push(next);
        seen.add(next);
      }
    }
    return false;
  }
}
