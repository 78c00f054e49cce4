import type { Mode } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";

/** One way the unknown slots may be filled. Weights sum to 1. */
export interface Candidate {
  readonly machine: Machine;
  readonly weight: number;
  readonly modes: readonly Mode[];
}

/** One thing that could explain what was seen: one mode, two modes, or something this sheet does not know. */
export interface Hypothesis {
  readonly id: string;
  readonly kind: "single" | "pair" | "linked pair" | "not on this sheet";
  /** Index into `Case.candidates`. */
  readonly candidate: number;
  readonly modes: readonly Mode[];
  readonly logPrior: number;
}

/** What an action may turn out to show, told apart only as far as the instrument can. */
export interface OutcomeTable {
  readonly outcomes: readonly { readonly id: string; readonly says: string }[];
  /** `chance[o][h]`: chance of outcome o under hypothesis h; over o they sum to 1. */
  readonly chance: readonly Float64Array[];
}

/** Odds of one mode, over all candidates and all hypotheses that contain it. */
export interface ModeOdds {
  readonly mode: string;
  readonly part: string;
  readonly says: string;
  readonly p: number;
}

/** What is believed after some observations. */
export interface Belief {
  /** Normalised log posterior by hypothesis. */
  readonly logPosterior: Float64Array;
  /** Modes with their odds, likeliest first. */
  readonly modes: readonly ModeOdds[];
  /** Parts (or causes) with their odds, likeliest first. */
  readonly parts: readonly {
    readonly part: string;
    readonly says: string;
    readonly p: number;
    readonly modes: readonly ModeOdds[];
  }[];
  readonly notOnThisSheet: number;
  readonly logEvidence: number;
  /** The observation that sits worst with all the others, and how badly (log of its chance given the rest). */
  readonly worst?: { readonly observation: number; readonly logChance: number; readonly contradicts: boolean };
}

/** A case opened on one family sheet: fixed hypotheses, and what each would show. Tables are made on demand and kept. */
export interface Case {
  readonly candidates: readonly Candidate[];
  readonly hypotheses: readonly Hypothesis[];
  /** Log chance of an observation under every hypothesis, slips and wrong answers included. */
  logLikelihood(observation: Observation): Float64Array;
  /** What asking, looking or measuring may turn out to show. `observation` carries any placeholder result. */
  outcomes(observation: Observation): OutcomeTable;
  update(observations: readonly Observation[]): Belief;
}
