import type { Mode } from "../fault/index.ts";
import type { Pieces } from "../pace/index.ts";
import type { Prediction } from "../predict/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";

/** One way the unknown slots may be filled. Weights sum to 1. */
export interface Candidate {
  readonly machine: Machine;
  readonly weight: number;
  readonly modes: readonly Mode[];
}

/**
 * One thing that could explain what was seen: one mode, two modes, nothing wrong, or something this sheet does not know.
 * A mode with several severities, or that comes and goes, gives several hypotheses, so that all readings must agree on one.
 */
export interface Hypothesis {
  readonly id: string;
  readonly kind: "single" | "pair" | "linked pair" | "nothing wrong" | "not on this sheet";
  /** Index into `Case.candidates`. */
  readonly candidate: number;
  readonly modes: readonly Mode[];
  /** Which severity of each mode. */
  readonly severities: readonly number[];
  /** Share of operations on which the fault is there; 1 = always. */
  readonly failsOn: number;
  readonly logPrior: number;
}

/** The hypotheses that still matter: indices into `Case.hypotheses`, and weights that sum to 1. */
export interface Live {
  readonly hypotheses: Int32Array;
  readonly weights: Float64Array;
}

/** One thing an action may turn out to show; of readings, the interval of the display it stands for. */
export interface Outcome {
  readonly id: string;
  readonly says: string;
  readonly from?: number;
  readonly to?: number;
  readonly overLimit?: boolean;
  /** The observation to add if this is what happens (a reading: a typical value of the interval). */
  readonly observation: Observation;
}

/** What an action may turn out to show, told apart only as far as the instrument can. */
export interface OutcomeTable {
  readonly outcomes: readonly Outcome[];
  /** `chance[o][i]`: chance of outcome o under hypothesis i (of `live` where given, else of all); over o they sum to 1. */
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
  readonly nothingWrong: number;
  readonly notOnThisSheet: number;
  /** Chance that more than one thing is wrong. */
  readonly severalFaults: number;
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
  /**
   * What asking, looking or measuring may turn out to show. `observation` carries any placeholder result.
   * With `live` only those hypotheses are looked at (much faster), and the outcomes are parted for them.
   */
  outcomes(observation: Observation, live?: Live): OutcomeTable;
  /**
   * Works out beforehand what `outcomes` will ask of these observations, one fault after the other: a fault that is run or
   * solved for one of them is at hand for the rest. A piece is one fault.
   */
  foresee?(observations: readonly Observation[], live: Live): Pieces<void>;
  /** What the display of a reading would show under one hypothesis, slips apart; undefined for signs, looks, answers. */
  prediction(hypothesis: number, observation: Observation): Prediction | undefined;
  update(observations: readonly Observation[]): Belief;
}
