import type { Part, Point } from "../sheet/index.ts";
import type { Offer } from "./offer.ts";
import { pairs, partPoints } from "./places.ts";
import { inHand, reading } from "./reading-question.ts";
import type { Scene, Suspect } from "./scene.ts";

/**
 * Leads clipped to the legs of a part that the sheet lets be clipped. Of a relay: volts over its coil and over its pole
 * while it is commanded; they part what commands it (no volts over the coil), its pole (mains volts, or more than a joint
 * may drop) and what lies beyond (nothing over the pole). Of a supply: its rails, rail to rail only.
 */
export function legOffers(scene: Scene): Offer[] {
  const [step] = [...scene.machine.steps].sort((a, b) => b.drives.length - a.drives.length);
  if (step === undefined || step.drives.length === 0) return [];
  return clippedParts(scene).flatMap((part) => {
    const points = partPoints(scene, part.id, [...part.pins.keys()]);
    const across = pairs(points).filter(([a, b]) => isJoinedInside(scene, part, a, b));
    const questions = across.flatMap(([from, to]) =>
      reading(scene, "volts", { kind: "live", step: step.id }, from, to),
    );
    if (questions.length === 0) return [];
    return [
      {
        id: `at:${part.id}/clipped/${step.id}`,
        do: "read" as const,
        says: `Leads clipped on dead, hands away: volts at the legs of the ${part.says} while it runs (${step.id})`,
        needs: {
          energy: "clipped" as const,
          access: part.access === undefined ? [] : [part.access],
          pulled: [],
          ...inHand(scene, "volts"),
        },
        // Read, switch off, prove dead again, take the leads off.
        minutes: scene.shop.minutes.runStep + scene.shop.minutes.proveDead,
        questions,
        cautions: ["case-first", "prove-dead", "clipped", "rcd-lead", "no-bridging"] as const,
        sheetCautions: part.instance.hazards,
      },
    ];
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
    (suspect: Suspect) => suspect.part === part || [...part.pins.values()].some((node) => touches(scene, suspect, node)),
  );
}

/** Poles of the supply touch everything, and say nothing. */
function touches(scene: Scene, { part }: Suspect, node: number): boolean {
  if (part === undefined || scene.poles.line.has(node) || scene.poles.neutral.has(node)) return false;
  return [...part.pins.values()].includes(node);
}

/** Joined inside the part without passing another of its pins: a coil, a pole, a rail and its 0 V, but no rail and the mains. */
function isJoinedInside(scene: Scene, part: Part, from: Point, to: Point): boolean {
  const pins = new Set(part.pins.values());
  const elements = part.elements.flatMap((index) => scene.machine.elements[index] ?? []);
  const reached = new Set([from.node]);
  const edge = [from.node];
  for (let node = edge.pop(); node !== undefined; node = edge.pop()) {
    for (const { a, b, what } of elements) {
      if (what === "leak" || (a !== node && b !== node)) continue;
      const next = a === node ? b : a;
      if (next === to.node) return true;
      if (reached.has(next) || pins.has(next)) continue;
      reached.add(next);
      edge.push(next);
    }
  }
  return false;
}
