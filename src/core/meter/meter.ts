/** What is measured. Codes are used in jobs, sheets and data. */
export type Quantity =
  | "ohms"
  | "volts"
  | "volts dc"
  | "amps"
  | "watts"
  | "leakage amps"
  | "insulation ohms"
  | "farads"
  | "hertz"
  | "seconds"
  | "litres per minute"
  | "degrees"
  | "millimetres"
  | "millibar"
  | "pulses"
  | "kelvin"
  | "number";

/** One range of one function of an instrument. Accuracy is ±(share of reading + counts × resolution). */
export interface MeterRange {
  readonly quantity: Quantity;
  /** Largest value shown; above it the display says OL. */
  readonly top: number;
  readonly resolution: number;
  readonly shareOfReading: number;
  readonly counts: number;
  /** Below this the display shows zero or nothing useful (plug-in power meters). */
  readonly floor?: number;
}

export interface Meter {
  readonly id: string;
  readonly says: string;
  readonly ranges: readonly MeterRange[];
  /** Input impedance of its volts ranges, ohms; of the low-impedance mode where it has one. */
  readonly inputOhms: number;
  readonly lowImpedanceOhms?: number;
  /** The beeper sounds below this many ohms; it lies somewhere in between. */
  readonly beeperOhms?: { readonly lo: number; readonly hi: number };
  /** Test volts of insulation ranges. */
  readonly insulationVolts?: readonly number[];
  /** Ohms of its leads when not nulled, and what nulling leaves over. */
  readonly leadOhms: { readonly lo: number; readonly hi: number };
  readonly nulledOhms: number;
  readonly source: string;
}

/** What a person wrote down. */
export type Shown =
  /** `step`: one of the last digit written (100 for `3k8`), where that is coarser than the display. */
  | { readonly kind: "value"; readonly value: number; readonly step?: number }
  /** Over-limit: nothing found up to the top of the range. */
  | { readonly kind: "over limit"; readonly top?: number }
  | { readonly kind: "word"; readonly word: Word }
  /** k of n operations were good. */
  | { readonly kind: "count"; readonly good: number; readonly of: number };

/** Leads nulled at the meter, or not, or their ohms where known. */
export type Leads = "nulled" | "not nulled" | { readonly ohms: number };

export type Word = "beeps" | "no beep" | "good" | "some" | "none" | "low" | "has continuity" | "bad";
