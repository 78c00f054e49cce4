import { findRoots, type Network, roundOff } from "./network.ts";
import type { Schedule } from "./schedule.ts";

/** A network of conductances: nothing in its elimination is subtracted, only differences of potential can cancel. */
export class RealNetwork implements Network {
  readonly schedule: Schedule;
  re = 0;
  readonly im = 0;
  error = 0;
  readonly heldRe: Float64Array;
  readonly heldIm: Float64Array;
  readonly root: Int32Array;
  /** Conductance of each edge; after `eliminate`, as it was when its earlier end was eliminated. */
  readonly g: Float64Array;
  /** What each update adds to its edge. */
  readonly #part: Float64Array;
  /** Share of each edge in the sum at its earlier end. */
  readonly #w: Float64Array;
  readonly #sum: Float64Array;
  readonly #d: Float64Array;
  /** Error bound of each difference, in units of round-off. */
  readonly #dError: Float64Array;
  readonly #up: Int32Array;
  readonly #upEdge: Int32Array;
  readonly #flow: Float64Array;
  /** Relative error of a share after elimination, in units of round-off: grows at most so with the number of nodes. */
  readonly #shareError: number;
  /** Places that the last renewal worked out anew. */
  readonly renewed: number[] = [];
  /** Edges that a renewal still has to add up, and the updates of one place as they were. */
  readonly #stale: Uint8Array;
  readonly #before: Float64Array;

  constructor(schedule: Schedule) {
    const { nodes, neighbour, free, updateEdge } = schedule;
    const edges = neighbour.length;
    this.schedule = schedule;
    this.heldRe = new Float64Array(nodes - free);
    this.heldIm = new Float64Array(nodes - free);
    this.root = new Int32Array(nodes);
    this.g = new Float64Array(edges);
    this.#w = new Float64Array(edges);
    this.#sum = new Float64Array(nodes);
    this.#d = new Float64Array(edges);
    this.#dError = new Float64Array(edges);
    this.#up = new Int32Array(nodes);
    this.#upEdge = new Int32Array(nodes);
    this.#flow = new Float64Array(nodes);
    this.#shareError = 4 * nodes;
    this.#part = new Float64Array(updateEdge.length);
    this.#stale = new Uint8Array(edges);
    this.#before = new Float64Array(updateEdge.length);
  }

  load(members: Int32Array, edges: Int32Array, re: Float64Array): void {
    const g = this.g;
    g.fill(0);
    for (let t = 0; t < members.length; t++) g[edges[t]] += re[members[t]];
  }

  short(edge: number): void {
    this.g[edge] = Number.POSITIVE_INFINITY;
  }

  eliminate(heldTogether: boolean): void {
    const { start, updateStart, updateEdge, neighbour, free, nodes } = this.schedule;
    const g = this.g;
    const part = this.#part;
    const up = this.#up;
    for (let k = 0; k < free; k++) {
      this.#eliminatePlace(k);
      for (let u = updateStart[k]; u < updateStart[k + 1]; u++) g[updateEdge[u]] += part[u];
    }
    for (let k = free; k < nodes; k++) {
      up[k] = -1;
      for (let t = start[k]; t < start[k + 1]; t++) if (g[t] !== 0) up[k] = neighbour[t];
    }
    findRoots(this.schedule, up, this.root, heldTogether);
  }

  /**
   * Eliminates anew after the conductance of one edge was loaded otherwise, on a network that holds nothing. Only places
   * above that edge in the elimination tree can change, and of them only those up to where nothing more comes out
   * different; every sum is made again in its old order, so that all digits are those of a whole elimination.
   *
   * @param loaded conductance of each edge as it is now, before any elimination
   */
  renew(edge: number, loaded: Float64Array): void {
    const { owner, parent, start, updateStart, updateEdge, metStart, met } = this.schedule;
    const g = this.g;
    const part = this.#part;
    const stale = this.#stale;
    const before = this.#before;
    this.renewed.length = 0;
    stale[edge] = 1;
    let waiting = 1;
    let isCoupledOtherwise = false;
    for (let k = owner[edge]; waiting > 0; k = parent[k]) {
      let isOther = false;
      for (let t = start[k]; t < start[k + 1]; t++) {
        if (stale[t] === 0) continue;
        stale[t] = 0;
        waiting -= 1;
        let sum = loaded[t];
        for (let m = metStart[t]; m < metStart[t + 1]; m++) sum += part[met[m]];
        if (sum === g[t]) continue;
        g[t] = sum;
        isOther = true;
      }
      if (!isOther) continue;
      this.renewed.push(k);
      const was = this.#up[k];
      for (let u = updateStart[k]; u < updateStart[k + 1]; u++) before[u] = part[u];
      this.#eliminatePlace(k);
      if (this.#up[k] !== was) isCoupledOtherwise = true;
      for (let u = updateStart[k]; u < updateStart[k + 1]; u++) {
        const met = updateEdge[u];
        if (part[u] === before[u] || stale[met] === 1) continue;
        stale[met] = 1;
        waiting += 1;
      }
    }
    if (isCoupledOtherwise) findRoots(this.schedule, this.#up, this.root, false);
  }

  /** Shares of place k from the edges it has left, and what its elimination adds to the edges between its neighbours. */
  #eliminatePlace(k: number): void {
    const { start, updateStart, neighbour } = this.schedule;
    const g = this.g;
    const w = this.#w;
    const part = this.#part;
    const a = start[k];
    const z = start[k + 1];
    let sum = 0;
    for (let t = a; t < z; t++) sum += g[t];
    this.#sum[k] = sum;
    this.#up[k] = -1;
    if (sum === Number.POSITIVE_INFINITY) {
      this.#merge(k);
      return;
    }
    let u = updateStart[k];
    let strongest = 0;
    for (let i = a; i < z; i++) {
      const share = sum === 0 ? 0 : g[i] / sum;
      w[i] = share;
      if (share > strongest) {
        strongest = share;
        this.#up[k] = neighbour[i];
        this.#upEdge[k] = i;
      }
      for (let j = i + 1; j < z; j++) part[u++] = share * g[j];
    }
  }

  /** Place k is shorted to a later place m: every other edge of k moves to m. Moved by addition, never multiplied. */
  #merge(k: number): void {
    const { start, updateStart, neighbour } = this.schedule;
    const g = this.g;
    const a = start[k];
    const z = start[k + 1];
    let m = a;
    while (g[m] !== Number.POSITIVE_INFINITY) m++;
    let u = updateStart[k];
    for (let i = a; i < z; i++) {
      this.#w[i] = i === m ? 1 : 0;
      for (let j = i + 1; j < z; j++) this.#part[u++] = i === m ? g[j] : j === m ? g[i] : 0;
    }
    this.#up[k] = neighbour[m];
    this.#upEdge[k] = m;
  }

  spread(): void {
    const { start, updateStart, updateEdge, neighbour, owner, free } = this.schedule;
    const w = this.#w;
    const d = this.#d;
    const dError = this.#dError;
    const own = this.#shareError;
    for (let t = start[free]; t < d.length; t++) {
      d[t] = this.heldRe[owner[t] - free] - this.heldRe[neighbour[t] - free];
      dError[t] = Math.abs(d[t]);
    }
    for (let k = free - 1; k >= 0; k--) {
      const a = start[k];
      const z = start[k + 1];
      for (let t = a; t < z; t++) {
        d[t] = 0;
        dError[t] = 0;
      }
      if (this.#up[k] < 0) continue;
      let u = updateStart[k];
      for (let i = a; i < z; i++) {
        const wi = w[i];
        for (let j = i + 1; j < z; j++) {
          const t = updateEdge[u++];
          const wj = w[j];
          const across = d[t];
          if (across === 0 && dError[t] === 0) continue;
          const doubt = dError[t] + own * Math.abs(across);
          d[j] += wi * across;
          d[i] -= wj * across;
          dError[j] += wi * doubt;
          dError[i] += wj * doubt;
        }
      }
    }
  }

  difference(edge: number): void {
    this.re = this.#d[edge];
    this.error = this.#dError[edge] * roundOff;
  }

  between(p: number, q: number): void {
    const free = this.schedule.free;
    let sum = 0;
    let error = 0;
    while (p !== q) {
      if (p >= free && q >= free) {
        const held = this.heldRe[p - free] - this.heldRe[q - free];
        sum += held;
        error += Math.abs(held) + Math.abs(sum);
        break;
      }
      const climber = Math.min(p, q);
      const edge = this.#upEdge[climber];
      if (p < q) {
        sum += this.#d[edge];
        p = this.#up[p];
      } else {
        sum -= this.#d[edge];
        q = this.#up[q];
      }
      error += this.#dError[edge] + Math.abs(sum);
    }
    this.re = sum;
    this.error = error * roundOff;
  }

  /** In energy form, the sum of flow² / conductance: the one subtraction, where two paths meet, counts only squared. */
  port(p: number, q: number): void {
    const { start, neighbour, parent, free } = this.schedule;
    const w = this.#w;
    const flow = this.#flow;
    flow[p] = 1;
    flow[q] = -1;
    let ohms = 0;
    let doubt = 0;
    while (p >= 0 || q >= 0) {
      const k = p < 0 ? q : q < 0 || p < q ? p : q;
      if (k === p) p = parent[p];
      if (k === q) q = parent[q];
      const b = flow[k];
      flow[k] = 0;
      if (k >= free || b === 0) continue;
      const sum = this.#sum[k];
      if (sum === 0) continue;
      ohms += (b * b) / sum;
      doubt += Math.abs(b) / sum;
      for (let t = start[k]; t < start[k + 1]; t++) flow[neighbour[t]] += w[t] * b;
    }
    this.re = ohms;
    this.error = (8 * doubt + this.#shareError * ohms) * roundOff;
  }

  reduced(edge: number): void {
    this.re = this.g[edge];
    this.error = this.#shareError * this.re * roundOff;
  }
}
