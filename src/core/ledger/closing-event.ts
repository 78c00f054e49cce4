import type { AgainstSheet, StepSeen, Stretch } from "../powerlog/index.ts";
import type { HeatUp } from "../proof/index.ts";
import type { Rated } from "../quantity/index.ts";
import type { ProtectionClass, SafetyTest } from "../safety/index.ts";

/** What is noted between a repair and the door: what it proved, the safety tests, what was put back, how it was left. */
export type ClosingEvent =
  /** A part operated again and again since it was mended. */
  | {
      readonly kind: "operated";
      readonly on: string;
      readonly good: number;
      readonly of: number;
      readonly minutesEach?: number;
    }
  | { readonly kind: "heated"; readonly heat: HeatUp }
  /** A contact under the current of its load, by its drop or by its ohms without load. */
  | {
      readonly kind: "loaded";
      readonly on: string;
      readonly by: "drop" | "ohms";
      readonly reading: Rated;
      readonly amperes: Rated;
    }
  /** What a log of the power at the plug showed. */
  | ({ readonly kind: "logged" } & LoggedPower)
  /** By whose rules it is tested, and what is tested. */
  | ({ readonly kind: "safety" } & SafetySetting)
  | ({ readonly kind: "tested" } & TestTaken)
  /** Things of the put-back list; "all" of it. */
  | { readonly kind: "ticked"; readonly items: readonly string[] }
  | { readonly kind: "checked"; readonly checks: ReadonlyMap<CloseOutCheck, boolean> }
  /** What was not proved on site, why, and what the customer was asked to do for it. */
  | ({ readonly kind: "unproved" } & Unproved)
  /** Not mended yet, and made safe until then. */
  | { readonly kind: "left"; readonly waitingFor: string; readonly madeSafe: readonly string[] }
  | ({ readonly kind: "notice" } & UnsafeNotice);

/** What a person checks with hands and eyes before the door is closed; no meter does. */
export const CLOSE_OUT_CHECKS = [
  "protectors in place",
  "right rating and kind",
  "nothing bridged",
  "earth re-made",
] as const;
export type CloseOutCheck = (typeof CLOSE_OUT_CHECKS)[number];

/** Metres, square millimetres, watts. */
export interface SafetySetting {
  /** Rule set by its file's name. */
  readonly rules: string;
  readonly protection: ProtectionClass;
  readonly cordMetres?: number;
  readonly cordSection?: number;
  readonly heatingWatts?: number;
  readonly isPortable: boolean;
  readonly hasBareMetal: boolean;
  readonly hasSurgeSuppressors: boolean;
  /** With which instrument, and when it was last calibrated; a test may say otherwise. */
  readonly instrument?: string;
  readonly calibrated?: string;
}

export interface TestTaken {
  readonly test: SafetyTest;
  readonly result:
    | { readonly is: "found"; readonly found: "pass" | "fail" }
    | { readonly is: "cannot"; readonly why: string }
    /** Base units. `above`: it lies above the top of the range, which is the amount. */
    | { readonly is: "shown"; readonly amount: Rated; readonly isAbove: boolean };
  /** A profile of `data/meters`: whose accuracy holds where the reading has no ± of its own. */
  readonly meter?: string;
  readonly instrument?: string;
  readonly calibrated?: string;
}

/** What is kept of a log of the power at the plug: what ran, and what that says of the programme. Seconds, watts, volts. */
export interface LoggedPower {
  /** Name of the log's file. */
  readonly file: string;
  readonly seconds: number;
  readonly kilowattHours: number;
  /** Mains while something ran, where logged. */
  readonly volts?: number;
  /** What ran longest, in order of time; seconds from the first row. */
  readonly runs: readonly Pick<Stretch, "load" | "from" | "to" | "watts">[];
  /** Against the sheet's programme; none where it was held against none. */
  readonly steps: readonly { readonly step: string; readonly says: StepSeen["says"]; readonly watts?: number }[];
  readonly hides: AgainstSheet["hides"];
}

export const ASKED_OF_CUSTOMER = ["picture", "logger", "call"] as const;

export interface Unproved {
  readonly what: string;
  readonly why: string;
  /** What the customer was asked for; none: it is not proved, and stays so. */
  readonly asked?: (typeof ASKED_OF_CUSTOMER)[number];
  readonly days?: number;
}

export const NOTICE_ENDS = ["signed", "refused to sign", "left with the customer"] as const;

/** A dangerous machine whose repair was declined. */
export interface UnsafeNotice {
  readonly found: readonly string[];
  readonly done: readonly string[];
  readonly ended: (typeof NOTICE_ENDS)[number];
  readonly to?: string;
  /** The signature, by the hash of its drawing. */
  readonly signature?: string;
}
