import type { UnitCode } from "./unit.ts";

/**
 * Where a number stands: C common practice (no source), M from memory, D worked out, P type plate, S the shop's own,
 * I invented for the demo, R read in a published source named in `note`.
 */
export interface Source {
  readonly mark: "C" | "M" | "D" | "P" | "S" | "I" | "R";
  readonly note?: string;
  /** Sample size behind a learned value. */
  readonly n?: number;
}

/**
 * A value as a plate, a sheet or a catalogue gives it: exact, with a tolerance, or a range.
 * A tolerance is read as normal with its limit at two standard deviations, on either side of the nominal value by itself
 * (common practice, no source); a range as log-uniform (`2k..15k`) or, where it holds zero or less, uniform.
 */
export interface Rated {
  /** Value in the base unit (ohms, volts, farads, seconds ...); of a range, its geometric (or plain) middle. */
  readonly nominal: number;
  readonly lo: number;
  readonly hi: number;
  readonly spread: "exact" | "tolerance" | "range";
  /** UCUM code of the base unit, where one was written: Ohm, V, A, W, F, H, Hz, s, Cel, L, %, 1. */
  readonly unit?: UnitCode;
  readonly source?: Source;
}
