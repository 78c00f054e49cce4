import type { Schedule } from "./schedule.ts";

/** Rounding of one double-precision operation; error bounds are counted in it. */
export const roundOff = 2 ** -53;

/**
 * A resistive or AC network on a schedule: load the edges, eliminate, set what is held, spread, read. All places, not
 * nodes. An answer is left in `re`, `im` and `error` (a running bound on the modulus, absolute), so that reading
 * allocates nothing.
 *
 * Elimination is star-mesh without diagonals: where all admittances are positive nothing is ever subtracted, so that
 * milliohms and insulation cannot hurt one another. A zero is a true open and stays exactly zero; an infinite
 * admittance is a true short and merges its ends.
 *
 * @source W. K. Grassmann, M. I. Taksar, D. P. Heyman, Oper. Res. 33 (1985) 1107 (citation read); F. Dörfler, F. Bullo,
 *   arXiv:1102.2950, Kron reduction (abstract read); N. J. Higham, Accuracy and Stability of Numerical Algorithms, ch. 3,
 *   running error bounds (from memory)
 */
export interface Network {
  readonly schedule: Schedule;
  /** The last answer. */
  readonly re: number;
  readonly im: number;
  readonly error: number;
  /** Potential of each held place, counted from `schedule.free`, volts. */
  readonly heldRe: Float64Array;
  readonly heldIm: Float64Array;
  /** Root place of each place's island. */
  readonly root: Int32Array;
  /** Sums the admittances of `members` into their `edges` (parallel elements add), all other edges 0. */
  load(members: Int32Array, edges: Int32Array, re: Float64Array, im: Float64Array): void;
  /** Makes an edge a dead short. */
  short(edge: number): void;
  /** Eliminates every free place and finds the islands; held places share a root when `heldTogether`. */
  eliminate(heldTogether: boolean): void;
  /** Differences of potential of every edge from those of the held places. */
  spread(): void;
  /** Answer: the difference of an edge, earlier end minus later end. */
  difference(edge: number): void;
  /** Answer: the difference between two places of one island, along the strongest couplings. */
  between(p: number, q: number): void;
  /** Answer: the impedance between two places of one island, held places being one node. */
  port(p: number, q: number): void;
  /** Answer: the admittance left in an edge after elimination. */
  reduced(edge: number): void;
}

/** Island roots after an elimination: `up` holds for each place a neighbour it is truly coupled to, or -1. */
export function findRoots(schedule: Schedule, up: Int32Array, root: Int32Array, heldTogether: boolean): void {
  const last = schedule.nodes - 1;
  for (let k = last; k >= 0; k--) {
    if (k >= schedule.free && heldTogether) root[k] = last;
    else root[k] = up[k] < 0 ? k : root[up[k]];
  }
}
