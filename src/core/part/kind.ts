import type { Rated, Source } from "../quantity/index.ts";
import type { Haste } from "./expression.ts";
import type { Expression } from "./formula.ts";
import type { TreeMap } from "./tree.ts";

/** What an element is. Values are ohms (R, X, switch), farads (C), henries (L), volts (V~, V=); a leak is ohms, absent in a good part. */
export type ElementWhat = "R" | "C" | "L" | "X" | "switch" | "V~" | "V=" | "leak";

/** One primitive element of a kind, its templates expanded. A pin or an inner point is named by `from` and `to`. */
export interface ElementRule {
  readonly name: string;
  readonly what: ElementWhat;
  readonly from: string;
  readonly to: string;
  /**
   * Value of the element: one formula over the ratings, or one for each named state; a missing state means open.
   * A switch has its contact ohms in the states of `closed-in` and is open in all others.
   */
  readonly value: { readonly always: Expression } | { readonly byState: ReadonlyMap<string, Expression> };
  /** Phase of a `V~`, degrees; absent = 0. */
  readonly degrees?: number;
}

/** States of which exactly one holds; the first is at rest with no power. */
export interface StateSetRule {
  readonly name: string;
  readonly states: readonly string[];
  /** Survives pulling the plug (an RCD in the house, a manual-reset cut-out). */
  readonly keeps: boolean;
  readonly moves: readonly MoveRule[];
}

export interface MoveRule {
  readonly from?: readonly string[];
  readonly to: string;
  readonly when: Expression;
  readonly takes: Haste;
  /** A permanent protector: the run never makes this move, it only notes "would open" (sheet-format 2.9). */
  readonly permanent: boolean;
}

/** What a way of failing does, before ohms and names are resolved. `targets` are element names of the same part. */
export type DoesRule =
  | { readonly does: "open" | "closed"; readonly targets: readonly string[] }
  | {
      readonly does: "series" | "leak" | "parallel";
      readonly targets: readonly string[];
      readonly ohms: readonly number[];
    }
  | { readonly does: "factor"; readonly targets: readonly string[]; readonly by: readonly number[] }
  /** A leak between two points of the part (pins or inner points); `from` lists alternatives of equal weight. */
  | {
      readonly does: "leak-between";
      readonly from: readonly string[];
      readonly to: string;
      readonly ohms: readonly number[];
    }
  | { readonly does: "stuck"; readonly state: string }
  | { readonly does: "set"; readonly knob: string; readonly to: readonly number[] };

/** One way a part fails. Several severities (ohms, factors, places) are alternatives of equal weight. */
export interface ModeRule {
  readonly name: string;
  /** Share of this part's failures, per cent. */
  readonly share: number;
  readonly does: readonly DoesRule[];
  /** Share of such faults that come and go, 0..1 ("now-and-then: 30 %"). */
  readonly nowAndThen: number;
  /** Usually the result of something else; a job may not close before "why?" is answered. */
  readonly victim: boolean;
  /** What it looks like when bad, in a technician's words. */
  readonly looks?: string;
  /** Chance that the bad look is seen when this mode is present, and when it is not. */
  readonly seen?: { readonly hit: number; readonly falseAlarm: number };
  readonly source?: Source;
}

export interface RemedyRule {
  readonly name: string;
  /** Mode names it cures; `*` at the end matches any ending; "all" cures any mode of the part. */
  readonly cures: readonly string[];
  /** Fits the whole assembly the part belongs to. */
  readonly assembly: boolean;
  /** Remakes a connection: solder, a tab, a splice; its price is that of the stuff, and no part is fitted. */
  readonly remakes?: true;
  readonly minutes: Rated;
  /** Price of the part as a share of the price of a comparable new machine. */
  readonly partShare: Rated;
  /** Chance that it cures the mode, and chance that it comes back within twelve months. */
  readonly cured: number;
  readonly back: number;
  readonly steps: readonly string[];
  readonly source?: Source;
}

/** What a meter may read in a step on the bench. */
export type BenchQuantity = "ohms" | "insulation ohms" | "volts dc" | "farads" | "watts" | "litres per minute";

/** One step of a kind's own test on the bench. */
export interface BenchRule {
  readonly do: "measure" | "energise" | "look" | "turn by hand";
  readonly what: string;
  readonly then?: string;
  /** What the meter reads in this step; silent where the person judges. */
  readonly reads?: BenchQuantity;
  /** The limits stand for 20 °C, and move with the part's temperature as the ohms of copper do. */
  readonly follows?: "copper";
  /** Limits, a formula over the ratings and `celsius` (the part's temperature), or what a person sees. */
  readonly good: string;
  readonly repeat?: number;
  readonly source?: Source;
}

/** What a kind asks of a part's line in a sheet, and what holds when the line is silent. */
export type RatingAsked =
  | { readonly is: "amount"; readonly otherwise?: Rated }
  | { readonly is: "formula"; readonly otherwise?: Expression }
  /** The first word holds when the sheet gives none. */
  | { readonly is: "word"; readonly words: readonly string[] };

/** A part kind as read: its questions answered when a sheet uses it (`instantiate`), its templates not yet expanded. */
export interface Kind {
  /** Name of its file. */
  readonly id: string;
  readonly says: string;
  readonly asks: ReadonlyMap<string, RatingAsked>;
  /** Template letter → the rating that counts it. */
  readonly per: ReadonlyMap<string, string>;
  readonly tree: TreeMap;
  readonly file?: string;
  readonly source?: Source;
}

/** A kind with its templates expanded for given ratings: what assembling needs and nothing else. */
export interface KindInstance {
  readonly kind: string;
  /** What a technician calls it. */
  readonly says: string;
  readonly ratings: ReadonlyMap<string, Rated>;
  /** Ratings that are conditions on hands and world: `shut: belt > 0`. Their names belong to the sheet, not to the kind. */
  readonly conditions: ReadonlyMap<string, Expression>;
  /** Ratings that are words: `rail: isolated`. */
  readonly words: ReadonlyMap<string, string>;
  /** Pin name → class of the joint it is reached through ("none": it sits on the wire). */
  readonly pins: ReadonlyMap<string, string>;
  readonly elements: readonly ElementRule[];
  readonly stateSets: readonly StateSetRule[];
  /** Numbers that mechanical modes (and a control's drive) set, with their value in a good part. */
  readonly knobs: ReadonlyMap<string, number>;
  /** Words for signs, guards and world: `clicks: is pulled`. */
  readonly gives: ReadonlyMap<string, Expression>;
  readonly modes: readonly ModeRule[];
  readonly remedies: readonly RemedyRule[];
  readonly bench: readonly BenchRule[];
  readonly duty?: { readonly oneOperationSeconds: number; readonly atMostPerMinute?: number };
  /** What can hurt at it in the machine and on the bench; and what only on the bench. */
  readonly hazards: readonly string[];
  readonly benchHazards: readonly string[];
  readonly whenAbsent: "joined" | "removed";
  /** Failures per 100 attended calls where the sheet gives none; 0 when the kind gives none either. */
  readonly share: number;
  readonly source?: Source;
}
