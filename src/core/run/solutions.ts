import type { Solver } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { Evaluate } from "../part/index.ts";
import type { Machine } from "../sheet/index.ts";
import { changesOf, emptyRows, type Network, type Rows, restoreRows, writeRows } from "./network.ts";

/** What a running machine asks of its circuit. */
export type Electrics = Pick<
  Solver,
  "re" | "im" | "emfRe" | "emfIm" | "solve" | "magnitude" | "amps" | "ampsMagnitude"
>;

/** The two circuits of a machine: at supply frequency, and at DC. */
export interface Power {
  readonly ac: Electrics;
  readonly dc: Electrics;
}

const dead: Electrics = {
  re: new Float64Array(0),
  im: new Float64Array(0),
  emfRe: new Float64Array(0),
  emfIm: new Float64Array(0),
  solve: () => {},
  magnitude: () => 0,
  amps: () => ({ re: 0, im: 0 }),
  ampsMagnitude: () => 0,
};

/** What a machine is like with no power at all: every volt and ampere is zero. */
export const noPower: Power = { ac: dead, dc: dead };

/** A solution that is kept, with the fault and the states it belongs to. */
export interface Kept<P extends Power> {
  readonly power: P;
  readonly states: Uint8Array;
  fault: number;
  /** Elements that the fault changes. */
  changed: readonly number[];
  lastUsed: number;
  /** How often another solution took its place. */
  filled: number;
  /** What conditions gave that looked at nothing but this solution, hands and knobs; NaN where that is not known. */
  readonly known: Float64Array;
  hands: number;
}

/**
 * The circuits of one machine under one fault after another, and the last few solutions: a machine comes back to states
 * it was in before, and then need not be solved again. Whoever runs a machine and whoever reads it afterwards may share
 * one of these.
 */
export class Solutions<P extends Power = Power> {
  /** Conditions that keep what they gave with a solution, numbered. */
  readonly conditions: ReadonlyMap<Evaluate, number>;
  readonly #network: Network;
  readonly #rows: Rows;
  readonly #parameters: ArrayLike<number> | undefined;
  readonly #nextPower: () => P | undefined;
  readonly #kept: Kept<P>[] = [];
  /** State sets that elements follow: only these make a difference to the circuit. */
  readonly #electric: readonly number[];
  #changed: readonly number[] = [];
  /** Faults by their effects; 0: none. A fault that is loaded again finds its solutions. */
  readonly #faults = new WeakMap<readonly Effect[], number>();
  #faultsSeen = 0;
  #fault = 0;
  #hands = 0;
  #uses = 0;

  /** @param nextPower  circuits for one solution more; undefined when no more are to be kept */
  constructor(network: Network, nextPower: () => P | undefined, parameters?: ArrayLike<number>) {
    this.#network = network;
    this.#nextPower = nextPower;
    this.conditions = new Map([...conditionsOf(network.machine)].map((condition, index) => [condition, index]));
    this.#parameters = parameters;
    this.#rows = emptyRows(network.good.re.length);
    network.machine.elements.forEach((_, element) => {
      restoreRows(this.#rows, network, element);
    });
    this.#electric = network.elementsOf.flatMap((elements, set) => (elements.length > 0 ? [set] : []));
  }

  /** A name for how hands and knobs now stand; no two are the same. */
  newHands(): number {
    this.#hands += 1;
    return this.#hands;
  }

  /** Puts a fault's element values in place of the one before; solutions of the same fault stay good. */
  load(effects: readonly Effect[]): void {
    const fault = effects.length === 0 ? 0 : (this.#faults.get(effects) ?? ++this.#faultsSeen);
    if (fault === this.#fault) return;
    this.#fault = fault;
    this.#faults.set(effects, fault);
    const { machine, firstRow } = this.#network;
    for (const element of this.#changed) restoreRows(this.#rows, this.#network, element);
    const changes = changesOf(effects);
    this.#changed = [...changes.keys()];
    for (const [element, change] of changes) {
      writeRows(this.#rows, machine, machine.elements[element], firstRow[element], change, this.#parameters);
    }
  }

  /** The solution for these states under the present fault; undefined where there is no power to solve with. */
  at(states: Uint8Array): Kept<P> | undefined {
    this.#uses += 1;
    let oldest: Kept<P> | undefined;
    for (const kept of this.#kept) {
      if (kept.fault === this.#fault && this.#same(kept.states, states)) {
        kept.lastUsed = this.#uses;
        return kept;
      }
      if (oldest === undefined || kept.lastUsed < oldest.lastUsed) oldest = kept;
    }
    oldest = this.#more() ?? oldest;
    if (oldest === undefined) return undefined;
    this.#fill(oldest, states);
    oldest.power.ac.solve();
    oldest.power.dc.solve();
    oldest.lastUsed = this.#uses;
    return oldest;
  }

  /** Room for one solution more. */
  #more(): Kept<P> | undefined {
    const power = this.#nextPower();
    if (power === undefined) return undefined;
    const kept: Kept<P> = {
      power,
      states: new Uint8Array(this.#network.machine.stateSets.length),
      fault: -1,
      changed: [],
      lastUsed: 0,
      filled: 0,
      known: new Float64Array(this.conditions.size),
      hands: -1,
    };
    this.#kept.push(kept);
    return kept;
  }

  #same(one: Uint8Array, other: Uint8Array): boolean {
    for (const set of this.#electric) if (one[set] !== other[set]) return false;
    return true;
  }

  /** Enters the element values that these states and this fault give, where they are not there already. */
  #fill(kept: Kept<P>, states: Uint8Array): void {
    const { machine, elementsOf } = this.#network;
    if (kept.fault < 0) {
      for (let element = 0; element < machine.elements.length; element++) this.#enter(kept.power, element, states);
    } else {
      for (const set of this.#electric) {
        if (kept.states[set] === states[set]) continue;
        for (const element of elementsOf[set]) this.#enter(kept.power, element, states);
      }
      if (kept.fault !== this.#fault) {
        for (const element of kept.changed) this.#enter(kept.power, element, states);
        for (const element of this.#changed) this.#enter(kept.power, element, states);
      }
    }
    kept.states.set(states);
    kept.fault = this.#fault;
    kept.changed = this.#changed;
    kept.hands = -1;
    kept.filled += 1;
  }

  #enter({ ac, dc }: Power, element: number, states: Uint8Array): void {
    const { machine, firstRow, source, gate } = this.#network;
    const rows = this.#rows;
    const { set } = machine.elements[element];
    const row = firstRow[element] + (set < 0 ? 0 : states[set]);
    if (source[element] < 0) {
      ac.re[element] = rows.re[row];
      ac.im[element] = rows.im[row];
      dc.re[element] = rows.dc[row];
      return;
    }
    ac.emfRe[source[element]] = rows.emfRe[row];
    ac.emfIm[source[element]] = rows.emfIm[row];
    dc.emfRe[source[element]] = rows.emfDc[row];
    if (gate[element] < 0) return;
    const shut = rows.shut[row] ? Number.POSITIVE_INFINITY : 0;
    ac.re[gate[element]] = shut;
    dc.re[gate[element]] = shut;
  }

  /** Writes the DC siemens of every element in these states; sources are out (open), gates as the states have them. */
  readOhms(states: Uint8Array, siemens: Float64Array): void {
    const { machine, firstRow, source, gate } = this.#network;
    for (let element = 0; element < machine.elements.length; element++) {
      const { set } = machine.elements[element];
      const row = firstRow[element] + (set < 0 ? 0 : states[set]);
      siemens[element] = source[element] < 0 ? this.#rows.dc[row] : 0;
      if (gate[element] >= 0) siemens[gate[element]] = this.#rows.shut[row] ? Number.POSITIVE_INFINITY : 0;
    }
  }
}

/** Every condition that is asked again and again while a machine runs. */
function conditionsOf({ stateSets, steps }: Machine): Set<Evaluate> {
  return new Set([
    ...stateSets.flatMap(({ moves }) => moves.map(({ when }) => when)),
    ...steps.flatMap((step) => [
      ...step.drives.flatMap(({ guard }) => (guard === undefined ? [] : [guard])),
      ...step.needs.map(({ when }) => when),
      ...(step.runBy === undefined ? [] : [step.runBy]),
    ]),
  ]);
}
