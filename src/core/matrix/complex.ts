import { findRoots, type Network, roundOff } from "./network.ts";
import type { Schedule } from "./schedule.ts";

/** A pivot known no better than this is no pivot: everything that rests on it is in doubt. */
const doubtfulPivot = 0.05 / roundOff;

/**
 * A network of complex admittances. Here sums can cancel (resonance), so every admittance, share and difference carries
 * a running error bound, to first order and with generous constants: moduli are |re| + |im|, units are round-offs.
 */
export class ComplexNetwork implements Network {
  readonly schedule: Schedule;
  re = 0;
  im = 0;
  error = 0;
  readonly heldRe: Float64Array;
  readonly heldIm: Float64Array;
  readonly root: Int32Array;
  /** Admittance of each edge and its bound; after `eliminate`, as it was when its earlier end was eliminated. */
  readonly gr: Float64Array;
  readonly gi: Float64Array;
  readonly #ge: Float64Array;
  /** Share of each edge in the sum at its earlier end. */
  readonly #wr: Float64Array;
  readonly #wi: Float64Array;
  readonly #we: Float64Array;
  /** Reciprocal of the sum at each place, and its bound. */
  readonly #zr: Float64Array;
  readonly #zi: Float64Array;
  readonly #ze: Float64Array;
  readonly #dr: Float64Array;
  readonly #di: Float64Array;
  readonly #de: Float64Array;
  readonly #up: Int32Array;
  readonly #upEdge: Int32Array;
  readonly #flowR: Float64Array;
  readonly #flowI: Float64Array;
  readonly #flowE: Float64Array;

  constructor(schedule: Schedule) {
    const { nodes, neighbour, free } = schedule;
    const edges = neighbour.length;
    const doubles = (length: number): Float64Array => new Float64Array(length);
    this.schedule = schedule;
    this.heldRe = doubles(nodes - free);
    this.heldIm = doubles(nodes - free);
    this.root = new Int32Array(nodes);
    this.gr = doubles(edges);
    this.gi = doubles(edges);
    this.#ge = doubles(edges);
    this.#wr = doubles(edges);
    this.#wi = doubles(edges);
    this.#we = doubles(edges);
    this.#zr = doubles(nodes);
    this.#zi = doubles(nodes);
    this.#ze = doubles(nodes);
    this.#dr = doubles(edges);
    this.#di = doubles(edges);
    this.#de = doubles(edges);
    this.#up = new Int32Array(nodes);
    this.#upEdge = new Int32Array(nodes);
    this.#flowR = doubles(nodes);
    this.#flowI = doubles(nodes);
    this.#flowE = doubles(nodes);
  }

  load(members: Int32Array, edges: Int32Array, re: Float64Array, im: Float64Array): void {
    const gr = this.gr;
    const gi = this.gi;
    const ge = this.#ge;
    gr.fill(0);
    gi.fill(0);
    ge.fill(0);
    for (let t = 0; t < members.length; t++) {
      const edge = edges[t];
      const member = members[t];
      const yr = re[member];
      const yi = im[member];
      gr[edge] += yr;
      gi[edge] += yi;
      ge[edge] += 2 * (Math.abs(yr) + Math.abs(yi)) + Math.abs(gr[edge]) + Math.abs(gi[edge]);
    }
  }

  short(edge: number): void {
    this.gr[edge] = Number.POSITIVE_INFINITY;
    this.gi[edge] = 0;
  }

  eliminate(heldTogether: boolean): void {
    const { start, updateStart, updateEdge, neighbour, free, nodes } = this.schedule;
    const gr = this.gr;
    const gi = this.gi;
    const ge = this.#ge;
    const wr = this.#wr;
    const wi = this.#wi;
    const we = this.#we;
    const up = this.#up;
    const upEdge = this.#upEdge;
    for (let k = 0; k < free; k++) {
      const a = start[k];
      const z = start[k + 1];
      let sumR = 0;
      let sumI = 0;
      let sumE = 0;
      let moduli = 0;
      for (let t = a; t < z; t++) {
        sumR += gr[t];
        sumI += gi[t];
        sumE += ge[t];
        moduli += Math.abs(gr[t]) + Math.abs(gi[t]);
      }
      up[k] = -1;
      if (moduli === 0) {
        wr.fill(0, a, z);
        wi.fill(0, a, z);
        we.fill(0, a, z);
        this.#zr[k] = 0;
        this.#zi[k] = 0;
        this.#ze[k] = 0;
        continue;
      }
      if (moduli === Number.POSITIVE_INFINITY) {
        this.#merge(k);
        continue;
      }
      sumE += (z - a) * moduli;
      const inverse = 1 / (sumR * sumR + sumI * sumI);
      const zr = sumR * inverse;
      const zi = -sumI * inverse;
      const zm = Math.abs(zr) + Math.abs(zi);
      const relative = sumE * zm < doubtfulPivot ? sumE * zm + 8 : Number.POSITIVE_INFINITY;
      this.#zr[k] = zr;
      this.#zi[k] = zi;
      this.#ze[k] = zm * relative;
      let u = updateStart[k];
      let strongest = 0;
      for (let i = a; i < z; i++) {
        const modulus = Math.abs(gr[i]) + Math.abs(gi[i]);
        if (modulus === 0) {
          wr[i] = 0;
          wi[i] = 0;
          we[i] = 0;
          u += z - i - 1;
          continue;
        }
        const sr = gr[i] * zr - gi[i] * zi;
        const si = gr[i] * zi + gi[i] * zr;
        const share = Math.abs(sr) + Math.abs(si);
        const se = ge[i] * zm + share * relative;
        wr[i] = sr;
        wi[i] = si;
        we[i] = se;
        if (share > strongest) {
          strongest = share;
          up[k] = neighbour[i];
          upEdge[k] = i;
        }
        for (let j = i + 1; j < z; j++) {
          const t = updateEdge[u++];
          const hr = gr[j];
          const hi = gi[j];
          const modulusJ = Math.abs(hr) + Math.abs(hi);
          if (modulusJ === 0) continue;
          const nr = gr[t] + sr * hr - si * hi;
          const ni = gi[t] + sr * hi + si * hr;
          gr[t] = nr;
          gi[t] = ni;
          ge[t] += (se + 4 * share) * modulusJ + share * ge[j] + Math.abs(nr) + Math.abs(ni);
        }
      }
    }
    for (let k = free; k < nodes; k++) {
      up[k] = -1;
      for (let t = start[k]; t < start[k + 1]; t++) if (gr[t] !== 0 || gi[t] !== 0) up[k] = neighbour[t];
    }
    findRoots(this.schedule, up, this.root, heldTogether);
  }

  /** Place k is shorted to a later place m: every other edge of k moves to m. Moved by addition, never multiplied. */
  #merge(k: number): void {
    const { start, updateStart, updateEdge, neighbour } = this.schedule;
    const gr = this.gr;
    const gi = this.gi;
    const ge = this.#ge;
    const a = start[k];
    const z = start[k + 1];
    let m = a;
    while (gr[m] !== Number.POSITIVE_INFINITY) m++;
    let u = updateStart[k];
    for (let i = a; i < z; i++) {
      this.#wr[i] = i === m ? 1 : 0;
      this.#wi[i] = 0;
      this.#we[i] = 0;
      for (let j = i + 1; j < z; j++, u++) {
        const moved = i === m ? j : j === m ? i : -1;
        if (moved < 0) continue;
        const t = updateEdge[u];
        gr[t] += gr[moved];
        gi[t] += gi[moved];
        ge[t] += ge[moved] + Math.abs(gr[t]) + Math.abs(gi[t]);
      }
    }
    this.#zr[k] = 0;
    this.#zi[k] = 0;
    this.#ze[k] = 0;
    this.#up[k] = neighbour[m];
    this.#upEdge[k] = m;
  }

  spread(): void {
    const { start, updateStart, updateEdge, neighbour, owner, free } = this.schedule;
    const wr = this.#wr;
    const wi = this.#wi;
    const we = this.#we;
    const dr = this.#dr;
    const di = this.#di;
    const de = this.#de;
    for (let t = start[free]; t < dr.length; t++) {
      const p = owner[t] - free;
      const q = neighbour[t] - free;
      dr[t] = this.heldRe[p] - this.heldRe[q];
      di[t] = this.heldIm[p] - this.heldIm[q];
      de[t] = Math.abs(dr[t]) + Math.abs(di[t]);
    }
    for (let k = free - 1; k >= 0; k--) {
      const a = start[k];
      const z = start[k + 1];
      for (let t = a; t < z; t++) {
        dr[t] = 0;
        di[t] = 0;
        de[t] = 0;
      }
      if (this.#up[k] < 0) continue;
      let u = updateStart[k];
      for (let i = a; i < z; i++) {
        const ar = wr[i];
        const ai = wi[i];
        const am = Math.abs(ar) + Math.abs(ai);
        const ae = we[i] + 5 * am;
        for (let j = i + 1; j < z; j++) {
          const t = updateEdge[u++];
          const xr = dr[t];
          const xi = di[t];
          const xm = Math.abs(xr) + Math.abs(xi);
          const xe = de[t];
          if (xm === 0 && xe === 0) continue;
          const br = wr[j];
          const bi = wi[j];
          const bm = Math.abs(br) + Math.abs(bi);
          dr[j] += ar * xr - ai * xi;
          di[j] += ar * xi + ai * xr;
          de[j] += ae * xm + am * xe;
          dr[i] -= br * xr - bi * xi;
          di[i] -= br * xi + bi * xr;
          de[i] += (we[j] + 5 * bm) * xm + bm * xe;
        }
      }
    }
  }

  difference(edge: number): void {
    this.re = this.#dr[edge];
    this.im = this.#di[edge];
    this.error = this.#de[edge] * roundOff;
  }

  between(p: number, q: number): void {
    const free = this.schedule.free;
    let sumR = 0;
    let sumI = 0;
    let error = 0;
    while (p !== q) {
      if (p >= free && q >= free) {
        const heldR = this.heldRe[p - free] - this.heldRe[q - free];
        const heldI = this.heldIm[p - free] - this.heldIm[q - free];
        sumR += heldR;
        sumI += heldI;
        error += Math.abs(heldR) + Math.abs(heldI) + Math.abs(sumR) + Math.abs(sumI);
        break;
      }
      const climber = Math.min(p, q);
      const edge = this.#upEdge[climber];
      if (p < q) {
        sumR += this.#dr[edge];
        sumI += this.#di[edge];
        p = this.#up[p];
      } else {
        sumR -= this.#dr[edge];
        sumI -= this.#di[edge];
        q = this.#up[q];
      }
      error += this.#de[edge] + Math.abs(sumR) + Math.abs(sumI);
    }
    this.re = sumR;
    this.im = sumI;
    this.error = error * roundOff;
  }

  /** As in the real network, in energy form: the sum of flow² / admittance over both paths. */
  port(p: number, q: number): void {
    const { start, neighbour, parent, free } = this.schedule;
    const fr = this.#flowR;
    const fi = this.#flowI;
    const fe = this.#flowE;
    fr[p] = 1;
    fr[q] = -1;
    let sumR = 0;
    let sumI = 0;
    let error = 0;
    while (p >= 0 || q >= 0) {
      const k = p < 0 ? q : q < 0 || p < q ? p : q;
      if (k === p) p = parent[p];
      if (k === q) q = parent[q];
      const br = fr[k];
      const bi = fi[k];
      const be = fe[k];
      fr[k] = 0;
      fi[k] = 0;
      fe[k] = 0;
      if (k >= free || (br === 0 && bi === 0)) continue;
      const bm = Math.abs(br) + Math.abs(bi);
      const zr = this.#zr[k];
      const zi = this.#zi[k];
      const zm = Math.abs(zr) + Math.abs(zi);
      const squareR = br * br - bi * bi;
      const squareI = 2 * br * bi;
      sumR += squareR * zr - squareI * zi;
      sumI += squareR * zi + squareI * zr;
      error += (2 * be + 8 * bm) * bm * zm + bm * bm * this.#ze[k] + Math.abs(sumR) + Math.abs(sumI);
      for (let t = start[k]; t < start[k + 1]; t++) {
        const wr = this.#wr[t];
        const wi = this.#wi[t];
        const wm = Math.abs(wr) + Math.abs(wi);
        if (wm === 0) continue;
        const j = neighbour[t];
        fr[j] += wr * br - wi * bi;
        fi[j] += wr * bi + wi * br;
        fe[j] += wm * (be + 4 * bm) + bm * this.#we[t] + Math.abs(fr[j]) + Math.abs(fi[j]);
      }
    }
    this.re = sumR;
    this.im = sumI;
    this.error = error * roundOff;
  }

  reduced(edge: number): void {
    this.re = this.gr[edge];
    this.im = this.gi[edge];
    this.error = this.#ge[edge] * roundOff;
  }
}
