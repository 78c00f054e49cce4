/** How soon a thing happens once its condition holds: contacts; rotors and locks; heat and water. */
export type Haste = "now" | "seconds" | "minutes";

/**
 * What a condition may look at while a machine runs: one solved moment of one machine, nothing else.
 * Numbers are the indices that assembling handed out; truth is 1, falsehood 0.
 */
export interface Moment {
  /** Volts across an element: root of AC² + DC²; `kind` "~" or "=" asks for one of them. */
  volts(element: number, kind?: "~" | "="): number;
  amps(element: number, kind?: "~" | "="): number;
  /** Watts turned into heat in an element. */
  watts(element: number): number;
  /** Volts between two nodes. */
  between(a: number, b: number, kind?: "~" | "="): number;
  /** Sine of the angle between two currents times their magnitudes, A² (what a two-winding motor starts by). */
  cross(elementA: number, elementB: number): number;
  /** Magnitude of the vector sum of two currents, A (what an RCD sees). */
  apart(elementA: number, elementB: number): number;
  /** Index of the state a state set is in. */
  state(set: number): number;
  /** Value of a variable: input, world value, knob of a part, output of a control. */
  variable(index: number): number;
  /** Value of a rated parameter (nominal, or as this machine was drawn). */
  parameter(index: number): number;
  /** What formula `index` of `Machine.goods` gives in the healthy machine at this step and moment ("of good"). */
  good(index: number): number;
}

/** A compiled condition or formula. */
export type Evaluate = (moment: Moment) => number;
