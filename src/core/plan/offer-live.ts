import { type RailRule, railRule } from "../predict/index.ts";
import type { Point } from "../sheet/index.ts";
import { drivingStep } from "./driving-step.ts";
import { tiedPoints } from "./nearness.ts";
import type { Offer } from "./offer.ts";
import { legOffers } from "./offer-legs.ts";
import { watchQuestions } from "./offer-questions.ts";
import { connectorName, connectors, isNear, pinPairs } from "./places.ts";
import { inHand, reading } from "./reading-question.ts";
import type { Scene } from "./scene.ts";
import { liveVolts, voltsOffer } from "./volts-offer.ts";

/** Everything that can be read while the machine runs: closed, and clipped. */
export function liveOffers(scene: Scene): Offer[] {
  const closed = [...wattsOffer(scene), ...leakageOffer(scene)];
  const stepFor = drivingStep(scene);
  const rails = railRule(scene.board.case.candidates.map(({ machine }) => machine));
  return [...closed, ...clippedOffers(scene, stepFor, rails), ...legOffers(scene, stepFor, rails)];
}

/** Watts at the plug, step by step, and what is to be seen meanwhile. */
function wattsOffer(scene: Scene): Offer[] {
  const readings = scene.machine.steps.flatMap((step) => reading(scene, "watts", { kind: "live", step: step.id }));
  if (readings.length === 0) return [];
  return [
    {
      id: "plug/watts",
      do: "read",
      says: "Plug meter between, covers on: let it run and read",
      needs: { energy: "closed", access: [], pulled: [], ...inHand(scene, "watts") },
      minutes: scene.shop.minutes.runStep,
      questions: [...readings, ...watchQuestions(scene)],
      cautions: ["case-first", "closed", "rcd-lead"],
      sheetCautions: [],
    },
  ];
}

/** Leakage round the cord, where a path to earth is in question. */
function leakageOffer(scene: Scene): Offer[] {
  if (!scene.leakInQuestion) return [];
  const questions = scene.machine.steps.flatMap((step) =>
    reading(scene, "leakage amps", { kind: "live", step: step.id }),
  );
  if (questions.length === 0) return [];
  return [
    {
      id: "plug/leakage",
      do: "read",
      says: "Leakage clamp round the cord, covers on: let it run and read",
      needs: { energy: "closed", access: [], pulled: [], ...inHand(scene, "leakage amps") },
      minutes: scene.shop.minutes.runStep,
      questions,
      cautions: ["case-first", "closed", "rcd-lead"],
      sheetCautions: [],
    },
  ];
}

/**
 * Volts across the loads at connectors that may be probed with clips, and from each pin to the live pole and the neutral
 * where those can be clipped behind the same cover. Pins of a rail against their own 0 V only, never against a pole or
 * earth. One offer a connector, in the step that drives its load.
 */
function clippedOffers(scene: Scene, stepFor: ReturnType<typeof drivingStep>, rails: RailRule): Offer[] {
  const reachable = connectors(scene).filter(({ points }) => points.every((point) => mayProbeLive(scene, point)));
  return reachable.filter(isNear(scene)).flatMap(({ plug, points }) => {
    const beside = reachable
      .filter((other) => other.plug.access === plug.access)
      .flatMap((other) => other.points.filter((point) => !rails.isOnRail(point)));
    const poles = [scene.poles.line, scene.poles.neutral].flatMap((pole) => tiedPoints(beside, pole).slice(0, 1));
    const toPoles = points.flatMap((point) =>
      poles.filter((pole) => !points.includes(pole)).map((pole) => [point, pole] as const),
    );
    const step = stepFor(points.map(({ node }) => node));
    if (step === undefined) return [];
    return voltsOffer(scene, {
      id: plug.id,
      says: connectorName(plug),
      energy: points.every((point) => point.live === "clipped") ? "clipped" : "handheld",
      step,
      access: plug.access,
      questions: [...pinPairs(points), ...toPoles]
        .filter(([from, to]) => rails.isToOwnZero(from, to))
        .flatMap(([from, to]) => liveVolts(scene, step, rails, from, to)),
      sheetCautions: scene.board.groups.get(plug.access ?? "")?.cautions ?? [],
    });
  });
}

function mayProbeLive(scene: Scene, point: Point): boolean {
  return point.live === "clipped" || (scene.shop.handheld && point.live === "handheld");
}
