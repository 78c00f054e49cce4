import type { NodePair } from "../matrix/index.ts";
import type { Circuit, Solver } from "./circuit.ts";

/** One element's admittance under one fault: 0 is open, re = Infinity a dead short. */
export interface FaultValue {
  readonly element: number;
  readonly re: number;
  readonly im: number;
}

/** One reading a probe for the healthy circuit, every fault, and every pair of faults. */
export interface FaultTable {
  readonly faults: number;
  readonly probes: number;
  /**
   * Row after row of one value a probe: healthy, each fault, each pair (first < second) in order. A pair on one element
   * is NaN: one element fails one way.
   */
  readonly values: Float64Array;
}

/** Row of the healthy circuit, of one fault, or of a pair (first < second). */
export function rowOf(faults: number, first = -1, second = -1): number {
  if (second < 0) return first + 1;
  return 1 + faults + (first * (2 * faults - first - 1)) / 2 + (second - first - 1);
}

/**
 * Ohms of every probe under all single and double faults; Infinity where no path exists. `g`: healthy conductances. Most
 * faults reach few of the probes: the others keep what the row before that fault has.
 */
export function ohmsTable(
  circuit: Circuit,
  g: Float64Array,
  faults: readonly FaultValue[],
  probes: readonly NodePair[],
): FaultTable {
  const meter = circuit.ohmmeter();
  meter.g.set(g);
  meter.solve();
  const resting: number[][] = Array.from({ length: circuit.shape.nodes }, () => []);
  for (const [p, { a, b }] of probes.entries()) for (const place of meter.restsOn(a, b)) resting[place].push(p);
  const readFor = new Int32Array(probes.length).fill(-1);
  let renewed: readonly number[] = [];
  return fill(
    faults,
    probes,
    (e, { re }) => {
      renewed = meter.change(e, re);
    },
    (e) => ({ element: e, re: g[e], im: 0 }),
    (values, to, before) => {
      if (before < 0) for (const [p, { a, b }] of probes.entries()) values[to + p] = meter.ohms(a, b);
      else values.copyWithin(to, before, before + probes.length);
      for (const place of renewed) {
        for (const p of resting[place]) {
          if (readFor[p] === to) continue;
          readFor[p] = to;
          values[to + p] = meter.ohms(probes[p].a, probes[p].b);
        }
      }
    },
  );
}

/**
 * Volts (magnitude) of every probe under all single and double faults, as a meter of `inputOhms` shows them, or unloaded
 * without. `healthy` is a solver filled with the healthy values and sources; it is left as it was, to be solved again.
 */
export function voltsTable(
  healthy: Solver,
  faults: readonly FaultValue[],
  probes: readonly NodePair[],
  inputOhms = Number.POSITIVE_INFINITY,
): FaultTable {
  const { re, im } = healthy;
  const before = Array.from(re, (y, element) => ({ element, re: y, im: im[element] }));
  const put = (e: number, value: { readonly re: number; readonly im: number }): void => {
    re[e] = value.re;
    im[e] = value.im;
  };
  const unloaded = inputOhms === Number.POSITIVE_INFINITY;
  return fill(
    faults,
    probes,
    put,
    (e) => before[e],
    (values, from) => {
      healthy.solve();
      for (let p = 0; p < probes.length; p++) {
        const { a, b } = probes[p];
        values[from + p] = unloaded ? healthy.magnitude(a, b) : healthy.metered(a, b, inputOhms).volts;
      }
    },
  );
}

/** `read` is given where its row goes, and where the row without the fault put last stands (-1: there is none). */
function fill(
  faults: readonly FaultValue[],
  probes: readonly NodePair[],
  put: (element: number, value: FaultValue) => void,
  healthy: (element: number) => FaultValue,
  read: (values: Float64Array, to: number, before: number) => void,
): FaultTable {
  const count = faults.length;
  const width = probes.length;
  const values = new Float64Array((1 + count + (count * (count - 1)) / 2) * width);
  read(values, 0, -1);
  for (let first = 0; first < count; first++) {
    const one = faults[first];
    const alone = rowOf(count, first) * width;
    put(one.element, one);
    read(values, alone, 0);
    for (let second = first + 1; second < count; second++) {
      const two = faults[second];
      const to = rowOf(count, first, second) * width;
      if (two.element === one.element) {
        values.fill(Number.NaN, to, to + width);
        continue;
      }
      put(two.element, two);
      read(values, to, alone);
      put(two.element, healthy(two.element));
    }
    put(one.element, healthy(one.element));
  }
  return { faults: count, probes: width, values };
}
