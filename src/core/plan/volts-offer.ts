import type { RailRule } from "../predict/index.ts";
import type { Point, Step } from "../sheet/index.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import { inHand, reading } from "./reading-question.ts";
import type { Scene } from "./scene.ts";

/** Where volts are read live, and how. */
interface VoltsAt {
  /** The connector or part. */
  readonly id: string;
  readonly says: string;
  readonly energy: "clipped" | "handheld";
  readonly step: Step;
  readonly access: string | undefined;
  readonly questions: readonly OfferQuestion[];
  readonly sheetCautions: readonly string[];
}

/**
 * Volts between two points in a step: direct where they hang on a rail, and alternating too, for what a tacho gives;
 * elsewhere alternating.
 */
export function liveVolts(scene: Scene, step: Step, rails: RailRule, from: Point, to: Point): OfferQuestion[] {
  const quantities =
    rails.isOnRail(from) || rails.isOnRail(to) ? (["volts dc", "volts"] as const) : (["volts"] as const);
  return quantities.flatMap((quantity) => reading(scene, quantity, { kind: "live", step: step.id }, from, to));
}

/** Volts read at one place while the machine runs; none where nothing is to be asked there. */
export function voltsOffer(scene: Scene, at: VoltsAt): Offer[] {
  if (at.questions.length === 0) return [];
  const { energy, step, access } = at;
  const how = energy === "clipped" ? "Leads clipped on dead, hands away" : "Probes held by hand, live";
  return [
    {
      id: `at:${at.id}/${energy}/${step.id}`,
      do: "read",
      says: `${how}: volts at ${at.says} while it runs (${step.id})`,
      needs: { energy, access: access === undefined ? [] : [access], pulled: [], ...inHand(scene, "volts") },
      // Read, switch off, prove dead again, take the leads off.
      minutes: scene.shop.minutes.runStep + scene.shop.minutes.proveDead,
      questions: at.questions,
      cautions: ["case-first", "prove-dead", energy, "rcd-lead", "no-bridging"],
      sheetCautions: at.sheetCautions,
    },
  ];
}
