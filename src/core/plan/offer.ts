import type { Meter } from "../meter/index.ts";
import type { Probe } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import type { CautionCode } from "./cautions.ts";
import type { StepKind } from "./plan.ts";
import type { Needs } from "./set-up.ts";

/** A step that could be taken, before anybody has asked what it is worth. */
export interface Offer {
  readonly id: string;
  readonly do: StepKind;
  readonly says: string;
  readonly needs: Needs;
  /** Minutes beside set-up and questions. */
  readonly minutes: number;
  /** What can be asked or read here; the plan takes the part of it that pays. */
  readonly questions: readonly OfferQuestion[];
  /** All questions are taken together or not at all. */
  readonly whole?: boolean;
  readonly cautions: readonly CautionCode[];
  /** Cautions in the sheet's own words. */
  readonly sheetCautions: readonly string[];
  /** The mains plug's pins are touched. */
  readonly touchesPlug?: boolean;
}

export interface OfferQuestion {
  readonly says: string;
  readonly observation: Observation;
  readonly minutes: number;
  /** Minutes into the run at which it can be answered; waited for in common with the others at this place. */
  readonly waits?: number;
  readonly probe?: Probe;
  readonly meter?: Meter;
  readonly from?: string;
  readonly to?: string;
}

/** A step that needs nothing: a question to the customer. */
export const NEEDS_NOTHING: Needs = { energy: "any", access: [], pulled: [] };

/** Minutes for these questions: each its own, and the longest wait once. */
export function minutesFor(questions: readonly OfferQuestion[]): number {
  let wait = 0;
  let minutes = 0;
  for (const question of questions) {
    minutes += question.minutes;
    wait = Math.max(wait, question.waits ?? 0);
  }
  return minutes + wait;
}

/** Is the machine out and proved dead once this was done? */
export function isProvedBy(offer: Offer): boolean {
  return offer.needs.energy === "plug out" && offer.needs.access.length > 0;
}
