import type { Shape } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { ElementWhat } from "../part/index.ts";
import type { Machine, MachineElement } from "../sheet/index.ts";

/**
 * A machine's electrical side as plain tables: one row for each element in each of its states, so that a state is a
 * lookup. A source that can be off sits behind a gate, an ideal contact on a node of its own, since a source itself
 * cannot be open.
 */
export interface Network {
  readonly machine: Machine;
  readonly shape: Shape;
  /** First row of each element; its rows follow the states of its set. */
  readonly firstRow: Int32Array;
  /** Gate in front of an element (an index into the shape's elements), or -1. */
  readonly gate: Int32Array;
  /** Place of an element among the shape's sources, or -1. */
  readonly source: Int32Array;
  /** Elements that follow each state set. */
  readonly elementsOf: readonly (readonly number[])[];
  /** The good machine's rows. */
  readonly good: Rows;
}

/** Admittances in siemens at supply frequency and at DC, source volts, and whether the gate is shut, by row. */
export interface Rows {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly dc: Float64Array;
  /** Source volts; the real and imaginary part of a phasor at AC. */
  readonly emfRe: Float64Array;
  readonly emfIm: Float64Array;
  readonly emfDc: Float64Array;
  readonly shut: Uint8Array;
}

/** What all effects on one element add up to; their order does not matter. */
export interface Change {
  factor: number;
  seriesOhms: number;
  parallelSiemens: number;
  open: boolean;
  short: boolean;
}

export const noChange: Readonly<Change> = {
  factor: 1,
  seriesOhms: 0,
  parallelSiemens: 0,
  open: false,
  short: false,
};

/** Lays the tables for one machine. `parameters` are the machine's rated numbers as drawn; absent, nominal ones. */
export function networkOf(machine: Machine, parameters?: ArrayLike<number>): Network {
  const count = machine.elements.length;
  const firstRow = new Int32Array(count);
  const gate = new Int32Array(count).fill(-1);
  const source = new Int32Array(count).fill(-1);
  const elementsOf: number[][] = machine.stateSets.map(() => []);
  const shapeElements = machine.elements.map(({ a, b }) => ({ a, b }));
  const sources: number[] = [];
  let nodes = machine.nodes.length;
  let rows = 0;
  machine.elements.forEach((element, index) => {
    firstRow[index] = rows;
    rows += element.values.length;
    if (element.set >= 0) elementsOf[element.set].push(index);
    if (!isSource(element.what)) return;
    source[index] = sources.length;
    sources.push(index);
    if (element.set < 0) return;
    gate[index] = shapeElements.length;
    shapeElements[index] = { a: nodes, b: element.b };
    shapeElements.push({ a: element.a, b: nodes });
    nodes += 1;
  });
  const good = emptyRows(rows);
  machine.elements.forEach((element, index) => {
    writeRows(good, machine, element, firstRow[index], noChange, parameters);
  });
  return { machine, shape: { nodes, elements: shapeElements, sources }, firstRow, gate, source, elementsOf, good };
}

export function emptyRows(rows: number): Rows {
  return {
    re: new Float64Array(rows),
    im: new Float64Array(rows),
    dc: new Float64Array(rows),
    emfRe: new Float64Array(rows),
    emfIm: new Float64Array(rows),
    emfDc: new Float64Array(rows),
    shut: new Uint8Array(rows),
  };
}

/** Gathers the effects that touch elements, by element. */
export function changesOf(effects: readonly Effect[]): Map<number, Change> {
  const changes = new Map<number, Change>();
  for (const effect of effects) {
    if (effect.does === "stuck" || effect.does === "set") continue;
    let change = changes.get(effect.element);
    if (change === undefined) {
      change = { ...noChange };
      changes.set(effect.element, change);
    }
    if (effect.does === "open") change.open = true;
    else if (effect.does === "short") change.short = true;
    else if (effect.does === "series") change.seriesOhms += effect.ohms;
    else if (effect.does === "factor") change.factor *= effect.by;
    else if (effect.does === "parallel" || effect.does === "leak") change.parallelSiemens += 1 / effect.ohms;
  }
  return changes;
}

/** Writes the rows of one element under a change, from row `first` on. */
export function writeRows(
  rows: Rows,
  machine: Machine,
  element: MachineElement,
  first: number,
  change: Readonly<Change>,
  parameters?: ArrayLike<number>,
): void {
  const omega = 2 * Math.PI * machine.supply.hertz;
  const values = element.values.map((value) => (parameters === undefined ? value.nominal : value.of(parameters)));
  const closedOhms = element.what === "switch" ? Math.min(...values) : 0;
  values.forEach((rated, state) => {
    const row = first + state;
    if (isSource(element.what)) {
      if (change.open && element.set < 0)
        throw new Error(`source ${element.id} cannot be open: put a contact before it`);
      const volts = Number.isFinite(rated) && !change.short ? rated * change.factor : 0;
      const radians = ((element.degrees ?? 0) * Math.PI) / 180;
      rows.emfRe[row] = element.what === "V~" ? volts * Math.cos(radians) : 0;
      rows.emfIm[row] = element.what === "V~" ? volts * Math.sin(radians) : 0;
      rows.emfDc[row] = element.what === "V=" ? volts : 0;
      rows.shut[row] = Number.isFinite(rated) && !change.open ? 1 : 0;
      return;
    }
    // A welded contact has its contact ohms in every state; any other short is a true one.
    const welded = change.short && element.what === "switch" && Number.isFinite(closedOhms);
    const value = (welded ? closedOhms : rated) * change.factor;
    const ohms = ohmsAt(element.what, value, omega);
    let re = 0;
    let im = 0;
    let dc = 0;
    if (!change.open || welded) {
      const r = ohms.re + change.seriesOhms;
      const x = ohms.im;
      if (Number.isFinite(r) && Number.isFinite(x)) {
        const square = r * r + x * x;
        re = square === 0 ? Infinity : r / square;
        im = square === 0 ? 0 : -x / square;
      }
      dc = 1 / (ohms.dc + change.seriesOhms);
    }
    const bridged = change.short && !welded;
    rows.re[row] = bridged ? Infinity : re + change.parallelSiemens;
    rows.im[row] = bridged || re === Infinity ? 0 : im;
    rows.dc[row] = bridged ? Infinity : dc + change.parallelSiemens;
  });
}

/** Copies the good rows of one element over those of `rows`. */
export function restoreRows(rows: Rows, network: Network, element: number): void {
  const first = network.firstRow[element];
  const last = first + network.machine.elements[element].values.length;
  const { good } = network;
  for (let row = first; row < last; row++) {
    rows.re[row] = good.re[row];
    rows.im[row] = good.im[row];
    rows.dc[row] = good.dc[row];
    rows.emfRe[row] = good.emfRe[row];
    rows.emfIm[row] = good.emfIm[row];
    rows.emfDc[row] = good.emfDc[row];
    rows.shut[row] = good.shut[row];
  }
}

export function isSource(what: ElementWhat): boolean {
  return what === "V~" || what === "V=";
}

function ohmsAt(what: ElementWhat, value: number, omega: number): { re: number; im: number; dc: number } {
  switch (what) {
    case "C":
      return { re: 0, im: value === 0 ? Infinity : -1 / (omega * value), dc: Infinity };
    case "L":
      return { re: 0, im: omega * value, dc: 0 };
    case "X":
      return { re: 0, im: value, dc: 0 };
    default:
      return { re: value, im: 0, dc: value };
  }
}
