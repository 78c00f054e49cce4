import { findRoots } from "./network.ts";
import type { Schedule } from "./schedule.ts";
import {
  complexAdd,
  complexInvert,
  complexMultiply,
  complexNegate,
  complexOne,
  complexSubtract,
  complexZero,
  isZero,
  taxicab,
  type WideComplex,
} from "./wide-complex.ts";

/** Rounding of one operation of double-double complex arithmetic, with room to spare. */
const wideRoundOff = 2 ** -100;
const doubtfulPivot = 0.05 / wideRoundOff;
/** Below this a product has lost the digits of its low half, or would soon be a false zero. */
const nearUnderflow = 1e-260;

/** An answer with its running error bound, absolute, on the modulus. */
export interface Bounded {
  readonly value: WideComplex;
  readonly error: number;
}

const nothing: Bounded = { value: complexZero, error: 0 };

/**
 * The same elimination in double-double arithmetic, for the few readings whose double-precision bound is too wide, and
 * for whoever asks for exactness. Plain objects instead of typed arrays: some hundred times slower, and as direct.
 * Errors are counted in `wideRoundOff` inside.
 */
export class WideNetwork {
  readonly schedule: Schedule;
  readonly root: Int32Array;
  /** Potential of each held place, counted from `schedule.free`. */
  readonly held: WideComplex[];
  readonly #edges: Bounded[];
  readonly #short: Uint8Array;
  readonly #shares: Bounded[];
  /** Reciprocal of the sum at each place. */
  readonly #sums: Bounded[];
  readonly #differences: Bounded[];
  readonly #up: Int32Array;
  readonly #upEdge: Int32Array;

  constructor(schedule: Schedule) {
    const edges = schedule.neighbour.length;
    this.schedule = schedule;
    this.root = new Int32Array(schedule.nodes);
    this.held = new Array<WideComplex>(schedule.nodes - schedule.free).fill(complexZero);
    this.#edges = new Array<Bounded>(edges).fill(nothing);
    this.#short = new Uint8Array(edges);
    this.#shares = new Array<Bounded>(edges).fill(nothing);
    this.#sums = new Array<Bounded>(schedule.nodes).fill(nothing);
    this.#differences = new Array<Bounded>(edges).fill(nothing);
    this.#up = new Int32Array(schedule.nodes);
    this.#upEdge = new Int32Array(schedule.nodes);
  }

  /** Takes every edge out again. */
  clear(): void {
    this.#edges.fill(nothing);
    this.#short.fill(0);
  }

  /** Adds an element's admittance to its edge. */
  join(edge: number, admittance: WideComplex): void {
    if (isZero(admittance)) return;
    this.#edges[edge] = plus(this.#edges[edge], { value: admittance, error: taxicab(admittance) });
  }

  short(edge: number): void {
    this.#short[edge] = 1;
  }

  eliminate(heldTogether: boolean): void {
    const { start, updateStart, updateEdge, neighbour, free, nodes } = this.schedule;
    const edges = this.#edges;
    for (let k = 0; k < nodes; k++) this.#up[k] = -1;
    for (let k = 0; k < free; k++) {
      const a = start[k];
      const z = start[k + 1];
      const shorted = this.#short.subarray(a, z).indexOf(1);
      if (shorted >= 0) {
        this.#merge(k, a + shorted);
        continue;
      }
      let sum = nothing;
      for (let t = a; t < z; t++) {
        this.#shares[t] = nothing;
        if (isOpen(edges[t])) continue;
        sum = plus(sum, edges[t]);
        this.#up[k] = neighbour[t];
      }
      if (this.#up[k] < 0) {
        this.#sums[k] = nothing;
        continue;
      }
      const sumInverse = inverse(sum);
      this.#sums[k] = sumInverse;
      let strongest = 0;
      for (let t = a; t < z; t++) {
        if (isOpen(edges[t])) continue;
        const share = times(edges[t], sumInverse);
        this.#shares[t] = share;
        if (taxicab(share.value) > strongest) {
          strongest = taxicab(share.value);
          this.#up[k] = neighbour[t];
          this.#upEdge[k] = t;
        }
      }
      let u = updateStart[k];
      for (let i = a; i < z; i++) {
        for (let j = i + 1; j < z; j++, u++) {
          if (isOpen(edges[i]) || isOpen(edges[j])) continue;
          edges[updateEdge[u]] = plus(edges[updateEdge[u]], times(this.#shares[i], edges[j]));
        }
      }
    }
    for (let k = free; k < nodes; k++) {
      for (let t = start[k]; t < start[k + 1]; t++) {
        if (this.#short[t] === 1 || !isOpen(edges[t])) this.#up[k] = neighbour[t];
      }
    }
    findRoots(this.schedule, this.#up, this.root, heldTogether);
  }

  #merge(k: number, m: number): void {
    const { start, updateStart, updateEdge, neighbour } = this.schedule;
    const a = start[k];
    const z = start[k + 1];
    let u = updateStart[k];
    for (let i = a; i < z; i++) {
      this.#shares[i] = i === m ? { value: complexOne, error: 0 } : nothing;
      for (let j = i + 1; j < z; j++, u++) {
        const moved = i === m ? j : j === m ? i : -1;
        if (moved < 0) continue;
        const t = updateEdge[u];
        if (this.#short[moved] === 1) this.#short[t] = 1;
        else this.#edges[t] = plus(this.#edges[t], this.#edges[moved]);
      }
    }
    this.#sums[k] = nothing;
    this.#up[k] = neighbour[m];
    this.#upEdge[k] = m;
  }

  spread(): void {
    const { start, updateStart, updateEdge, neighbour, owner, free } = this.schedule;
    const d = this.#differences;
    for (let t = start[free]; t < d.length; t++) {
      d[t] = exactly(complexSubtract(this.held[owner[t] - free], this.held[neighbour[t] - free]));
    }
    for (let k = free - 1; k >= 0; k--) {
      const a = start[k];
      const z = start[k + 1];
      d.fill(nothing, a, z);
      if (this.#up[k] < 0) continue;
      let u = updateStart[k];
      for (let i = a; i < z; i++) {
        for (let j = i + 1; j < z; j++) {
          const across = d[updateEdge[u++]];
          d[j] = plus(d[j], times(this.#shares[i], across));
          d[i] = plus(d[i], minus(times(this.#shares[j], across)));
        }
      }
    }
  }

  /** Difference of an edge, earlier end minus later end. */
  difference(edge: number): Bounded {
    return finished(this.#differences[edge]);
  }

  between(p: number, q: number): Bounded {
    const free = this.schedule.free;
    let sum = nothing;
    while (p !== q) {
      if (p >= free && q >= free) {
        sum = plus(sum, exactly(complexSubtract(this.held[p - free], this.held[q - free])));
        break;
      }
      const step = this.#differences[this.#upEdge[Math.min(p, q)]];
      if (p < q) {
        sum = plus(sum, step);
        p = this.#up[p];
      } else {
        sum = plus(sum, minus(step));
        q = this.#up[q];
      }
    }
    return finished(sum);
  }

  /** Impedance between two places of one island, held places being one node. */
  port(p: number, q: number): Bounded {
    const { start, neighbour, parent, free } = this.schedule;
    const flow = new Map<number, Bounded>([
      [p, { value: complexOne, error: 0 }],
      [q, { value: complexNegate(complexOne), error: 0 }],
    ]);
    let sum = nothing;
    while (p >= 0 || q >= 0) {
      const k = p < 0 ? q : q < 0 || p < q ? p : q;
      if (k === p) p = parent[p];
      if (k === q) q = parent[q];
      const b = flow.get(k);
      if (k >= free || b === undefined) continue;
      sum = plus(sum, times(times(b, b), this.#sums[k]));
      for (let t = start[k]; t < start[k + 1]; t++) {
        if (isOpen(this.#shares[t])) continue;
        const j = neighbour[t];
        flow.set(j, plus(flow.get(j) ?? nothing, times(this.#shares[t], b)));
      }
    }
    return finished(sum);
  }

  /** Impedance left in an edge after elimination; 0 for a dead short, undefined where it is open. */
  left(edge: number): Bounded | undefined {
    if (this.#short[edge] === 1) return nothing;
    const admittance = this.#edges[edge];
    return isOpen(admittance) ? undefined : finished(inverse(admittance));
  }
}

function isOpen({ value, error }: Bounded): boolean {
  return error === 0 && isZero(value);
}

function exactly(value: WideComplex): Bounded {
  return { value, error: taxicab(value) };
}

function plus(x: Bounded, y: Bounded): Bounded {
  const value = complexAdd(x.value, y.value);
  return { value, error: x.error + y.error + taxicab(value) };
}

function minus(x: Bounded): Bounded {
  return { value: complexNegate(x.value), error: x.error };
}

function times(x: Bounded, y: Bounded): Bounded {
  const value = complexMultiply(x.value, y.value);
  const xm = taxicab(x.value);
  const ym = taxicab(y.value);
  const product = xm * ym;
  if (product < nearUnderflow && xm > 0 && ym > 0) return { value, error: Number.POSITIVE_INFINITY };
  return { value, error: x.error * ym + xm * y.error + 5 * product };
}

function inverse(x: Bounded): Bounded {
  const value = complexInvert(x.value);
  const modulus = taxicab(value);
  const relative = x.error * modulus;
  return { value, error: relative < doubtfulPivot ? modulus * (relative + 8) : Number.POSITIVE_INFINITY };
}

/** An answer with its bound in its own unit instead of round-offs; a value that is no number is worth nothing. */
function finished({ value, error }: Bounded): Bounded {
  const sure = Number.isFinite(value.re.hi) && Number.isFinite(value.im.hi) && Number.isFinite(error);
  return { value, error: sure ? error * wideRoundOff : Number.POSITIVE_INFINITY };
}
