import type { Meter } from "../meter/index.ts";
import type { Probe } from "../predict/index.ts";
import type { Course } from "../remedy/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Caution } from "./cautions.ts";
import type { SetUpAct } from "./set-up.ts";
import type { StoredEnergy } from "./stored-energy.ts";

/** How live a step is. Closed: nothing opened. Clipped: leads on dead, hands away. Handheld: probes held on live parts. */
export type Energy = "any" | "plug out" | "closed" | "clipped" | "handheld";

export type StepKind =
  | "ask"
  | "see"
  | "look"
  | "read"
  | "slot"
  | "count"
  | "why"
  | "repair"
  | "verify"
  | "talk"
  | "stop";

/** What to do next, best first, with the arithmetic behind it. Money is in the shop's currency. */
export interface Plan {
  readonly steps: readonly PlanStep[];
  /** Expected money to the end by tests first: one thing after the other, or at the price of knowing where that is less. */
  readonly base: number;
  /** Expected money of the best that can be done without any test: a repair on the chance, or stopping. */
  readonly blind: number;
  /** Money that no test can save: every fault mended as if it were known. */
  readonly least: number;
  /** Money lost by stopping now. */
  readonly stopCost: number;
  readonly energy: "plug out" | "live";
  readonly provedDead: boolean;
  readonly minutes: number;
  /** So many minutes have gone that one stops and talks. */
  readonly timeIsUp: boolean;
  /** Protectors found open whose reason is not known: the job may not close before. */
  readonly unanswered: readonly Unanswered[];
  /** Every protector answered for, every repair looked at. */
  readonly mayClose: boolean;
  readonly work: Work;
  /** Where the choice was searched to its end. */
  readonly refined?: Refined;
}

/** What a search to the end made of the first step. Money is that of the table searched, to the end of the job. */
export interface Refined {
  /** Id of the step that is best; the first of `steps`, unless something must be answered before it. */
  readonly step: string;
  readonly expectedCost: number;
  /** No way of going on costs less. */
  readonly lowerBound: number;
  /** Proved best, for the table. */
  readonly exact: boolean;
  /** The step that came first without the search, with the same care. */
  readonly quick: { readonly step: string; readonly expectedCost: number; readonly lowerBound: number };
  /** The best step is another one, and worth the change. */
  readonly differs: boolean;
  /** Size of the table, the share of the belief that it leaves out, and states looked into. */
  readonly causes: number;
  readonly tests: number;
  readonly remedies: number;
  readonly leftOut: number;
  readonly work: number;
}

/** Work done, in counts that are the same on every machine; `complete` when no step was left unlooked at. */
export interface Work {
  readonly tables: number;
  readonly evaluations: number;
  readonly complete: boolean;
}

export interface Unanswered {
  readonly protector: string;
  readonly says: string;
  /** Chance that it is open, as believed. */
  readonly p: number;
  readonly reasons: readonly { readonly reason: string; readonly says: string; readonly p: number }[];
}

export interface PlanStep {
  /** Stable: the same step has the same id tomorrow. `cannot:` in a job names it. */
  readonly id: string;
  readonly do: StepKind;
  /** One sentence in the trade's words. */
  readonly says: string;
  readonly energy: Energy;
  /** What has to be done first, in order. */
  readonly setUp: readonly SetUpAct[];
  /** Set-up included. */
  readonly minutes: number;
  /** Money this step costs, parts included. */
  readonly cost: number;
  /** Expected money to the end of the job when this step is taken and then the base policy. */
  readonly expectedCost: number;
  /** Money it is expected to save, after its own cost, against the best that can be done without any test. */
  readonly worth: number;
  /** What it would settle: "parts the heater from its connections". */
  readonly settles: string;
  /** What is taken here, in the order in which hands move. */
  readonly questions: readonly PlanQuestion[];
  readonly outcomes: readonly StepOutcome[];
  readonly course?: CourseOdds;
  readonly cautions: readonly Caution[];
  readonly stored: readonly StoredEnergy[];
  /** The customer has not agreed to this much. */
  readonly overAuthority?: boolean;
  /** Unanswered protector that makes this repair come back. */
  readonly waitsForWhy?: string;
}

export interface PlanQuestion {
  readonly says: string;
  readonly observation: Observation;
  /** For readings. */
  readonly probe?: Probe;
  readonly meter?: Meter;
  readonly from?: string;
  readonly to?: string;
  /** What a display would show under the faults still possible: three to five bands, the rest folded. */
  readonly bands: readonly Band[];
  /** Share of the belief that no band stands for. */
  readonly others: number;
}

/** Faults under which a reading would lie in the same place. */
export interface Band {
  readonly faults: readonly { readonly id: string; readonly says: string; readonly p: number }[];
  readonly p: number;
  /** Ends of the band in the base unit, or open (OL), or the answer in words. */
  readonly reach: { readonly lo: number; readonly hi: number } | "open" | { readonly word: string };
}

/** How one question of a step came out; of a reading in numbers, the ends of its interval in the base unit. */
export interface Found {
  readonly question: number;
  readonly says: string;
  readonly reach?: { readonly lo: number; readonly hi: number };
}

export interface StepOutcome {
  /** What was found, by question of the step (its index); empty for "anything else". */
  readonly found: readonly Found[];
  readonly chance: number;
  /** Likeliest parts if it comes out so. */
  readonly parts: readonly { readonly id: string; readonly says: string; readonly p: number }[];
  /** A place to look further at, or a remedy in words. */
  readonly leadsTo: { readonly do: "check" | "mend" | "stop"; readonly says: string };
}

/** A course with the odds of this very case. */
export interface CourseOdds extends Course {
  /** Chance that the job is mended by it, as believed now. */
  readonly mends: number;
}

export interface PlanOptions {
  readonly meters: ReadonlyMap<string, Meter>;
  /** On the telephone only questions can be asked. */
  readonly where?: "telephone" | "machine";
  readonly ageYears?: number;
  readonly replacementPrice?: number;
  /** Amount the customer agreed to, call-out included. */
  readonly authority?: number;
  /** Signs that what was said already answers. */
  readonly moot?: ReadonlySet<string>;
  /** Words of the slots: the question, and how each variant looks. */
  readonly slots?: ReadonlyMap<string, { readonly ask: string; readonly looks: ReadonlyMap<string, string> }>;
  /** Outcome tables that may be asked for. */
  readonly tables?: number;
  /** Hypotheses that are looked at. */
  readonly atMost?: number;
  /** Search the choice to its end, with so much work: states looked into. */
  readonly refineWork?: number;
}
