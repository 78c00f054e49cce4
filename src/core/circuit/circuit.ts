/**
 * A circuit's shape: which elements join which nodes, and which of them are ideal voltage sources.
 * Values come later, so one shape (and its one elimination schedule) serves every state and every fault.
 * Every edge that a fault may add must be here, at admittance 0.
 */
export interface Shape {
  readonly nodes: number;
  readonly elements: readonly { readonly a: number; readonly b: number }[];
  /** Indices of the elements that are ideal voltage sources (value: `emf`), in the order of `emf`. */
  readonly sources: readonly number[];
}

/** When a reading is taken again in double-double arithmetic: its error bound is over both limits. */
export interface Guard {
  readonly relative: number;
  readonly floorVolts: number;
}

/**
 * One set of element values on a shape, solved on demand. All arrays are owned by the solver and reused.
 * Fill `re` (and `im`), then `solve`; then read, before anything is filled anew. An admittance of 0 is a true open, re = Infinity a true short;
 * others belong between 1e-15 and 1e6 S, or a product along a chain might underflow to a false open.
 */
export interface Solver {
  /** Admittance of each element, siemens; sources are ignored. `im` is only there for AC. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Volts of each source, as `Shape.sources`, complex. */
  readonly emfRe: Float64Array;
  readonly emfIm: Float64Array;
  solve(): void;
  /** Difference of potential a − b of the last solve, volts; 0 where a and b are in different islands. */
  volts(a: number, b: number): { readonly re: number; readonly im: number };
  /** |volts(a, b)| without an allocation. */
  magnitude(a: number, b: number): number;
  /** Current through an element from a to b, amperes; NaN in a loop of shorts, where it is undefined. */
  amps(element: number): { readonly re: number; readonly im: number };
  ampsMagnitude(element: number): number;
  /** Are the two nodes joined by any path at all? */
  joined(a: number, b: number): boolean;
  /** What a meter of `inputOhms` shows between a and b: loads the circuit by its Thevenin impedance. */
  metered(a: number, b: number, inputOhms: number): { readonly volts: number; readonly floats: boolean };
  /** Bound on the error of the last reading, in its unit. */
  readonly error: number;
  /** Double-double solves so far: how often the guard refused. */
  readonly wideSolves: number;
  /** d(volts(a,b))/d(admittance of element e) for all e, complex, by the adjoint: one more solve. */
  partials(a: number, b: number): { readonly re: Float64Array; readonly im: Float64Array };
  /** What each source that gives volts adds to volts(a, b), the others dead: complex, as `Shape.sources`. They sum to it. */
  bySource(a: number, b: number): { readonly re: Float64Array; readonly im: Float64Array };
}

/** Ohms between points with every source taken out (its edge open); DC: capacitors open, inductors their winding ohms. */
export interface Ohmmeter {
  readonly g: Float64Array;
  solve(): void;
  /**
   * Puts another conductance to one element of a solved circuit, and solves again as far as that reaches. Gives the places
   * that are no longer as they were, good until the next change: readings that rest on none of them are the same to the last digit.
   */
  change(element: number, siemens: number): readonly number[];
  /** Places that the ohms between p and q rest on. */
  restsOn(p: number, q: number): readonly number[];
  /** Ohms between p and q; Infinity where no path exists. */
  ohms(p: number, q: number): number;
  /** dR/d(ohms of element e) for all e; 0 for opens and shorts. */
  partials(p: number, q: number): Float64Array;
  /** For an open reading: the elements of value 0 with exactly one end in p's island. */
  because(p: number, q: number): readonly number[];
}

export interface Circuit {
  readonly shape: Shape;
  /** Guards are 1e-9 of the reading or 1 pV unless given. */
  ac(guard?: Guard): Solver;
  dc(guard?: Guard): Solver;
  ohmmeter(): Ohmmeter;
}
