import type { Solver } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { Evaluate, Moment } from "../part/index.ts";
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
const noPower: Power = { ac: dead, dc: dead };

/** A solution that is kept, with the fault and the states it belongs to. */
interface Kept<P extends Power> {
  readonly power: P;
  readonly states: Uint8Array;
  fault: number;
  /** Elements that the fault changes. */
  changed: readonly number[];
  lastUsed: number;
  /** What conditions gave that looked at nothing but this solution, hands and knobs; NaN where that is not known. */
  readonly known: Float64Array;
  hands: number;
}

/**
 * One machine, with one set of effects, in one state: its states, its variables and the solution that belongs to them.
 * All buffers are reused from fault to fault. AC and DC are solved with the same states.
 */
export class Live<P extends Power = Power> implements Moment {
  readonly network: Network;
  readonly states: Uint8Array;
  readonly variables: Float64Array;
  /** Sets that a fault holds fast, and variables that it has fixed. */
  readonly stuck: Uint8Array;
  readonly fixed: Uint8Array;
  /** What the healthy machine's formulas give at this step and moment; absent while the healthy one is run. */
  goods: Float64Array | undefined;
  #ac: Electrics;
  #dc: Electrics;
  readonly #rows: Rows;
  readonly #parameters: ArrayLike<number> | undefined;
  readonly #kept: readonly Kept<P>[];
  /** State sets that elements follow: only these make a difference to the circuit. */
  readonly #electric: readonly number[];
  readonly #isElectric: Uint8Array;
  /** Variables that move while a machine runs: the world and the outputs. Hands and knobs stand still. */
  readonly #isMoving: Uint8Array;
  readonly #conditions: ReadonlyMap<Evaluate, number>;
  #changed: readonly number[] = [];
  #fault = 0;
  #uses = 0;
  #hands = 0;
  #current: Kept<P> | undefined;
  #sawMoving = false;

  /**
   * `powers`: circuits to solve with, one for each solution worth keeping, since a machine comes back to states it
   * was in before; none: it has no power, and only hands and world move it.
   */
  constructor(network: Network, powers: readonly P[], parameters?: ArrayLike<number>) {
    const { machine } = network;
    const sets = machine.stateSets.length;
    this.network = network;
    this.states = new Uint8Array(sets);
    this.variables = new Float64Array(machine.variables.length);
    this.stuck = new Uint8Array(sets);
    this.fixed = new Uint8Array(machine.variables.length);
    this.#parameters = parameters;
    this.#rows = emptyRows(network.good.re.length);
    machine.elements.forEach((_, element) => {
      restoreRows(this.#rows, network, element);
    });
    this.#electric = network.elementsOf.flatMap((elements, set) => (elements.length > 0 ? [set] : []));
    this.#isElectric = Uint8Array.from(network.elementsOf, (elements) => Number(elements.length > 0));
    this.#isMoving = Uint8Array.from(machine.variables, ({ role }) => Number(role === "world" || role === "output"));
    this.#conditions = new Map([...conditionsOf(machine)].map((condition, index) => [condition, index]));
    this.#kept = powers.map((power) => ({
      power,
      states: new Uint8Array(sets),
      fault: -1,
      changed: [],
      lastUsed: 0,
      known: new Float64Array(this.#conditions.size),
      hands: 0,
    }));
    const { ac, dc } = powers[0] ?? noPower;
    this.#ac = ac;
    this.#dc = dc;
  }

  /** Puts the machine at rest, with the effects of a fault in place. */
  load(effects: readonly Effect[]): void {
    const { machine } = this.network;
    for (const element of this.#changed) restoreRows(this.#rows, this.network, element);
    const changes = changesOf(effects);
    this.#changed = [...changes.keys()];
    for (const [element, change] of changes) {
      const first = this.network.firstRow[element];
      writeRows(this.#rows, machine, machine.elements[element], first, change, this.#parameters);
    }
    this.states.fill(0);
    this.stuck.fill(0);
    this.fixed.fill(0);
    machine.variables.forEach((variable, index) => {
      this.variables[index] = variable.initial;
    });
    // Two effects on one set or variable cannot both hold: the lower value wins, whatever their order.
    for (const effect of effects) {
      if (effect.does === "stuck") {
        this.states[effect.set] = this.stuck[effect.set]
          ? Math.min(this.states[effect.set], effect.state)
          : effect.state;
        this.stuck[effect.set] = 1;
      } else if (effect.does === "set") {
        const before = this.variables[effect.variable];
        this.variables[effect.variable] = this.fixed[effect.variable] ? Math.min(before, effect.to) : effect.to;
        this.fixed[effect.variable] = 1;
      }
    }
    this.#fault += 1;
  }

  /** Takes over states and variables, as stored in a picture. */
  place(states: Uint8Array, variables: Float64Array): void {
    for (let index = 0; index < variables.length; index++) {
      if (!this.#isMoving[index] && this.variables[index] !== variables[index]) this.#hands += 1;
    }
    this.states.set(states);
    this.variables.set(variables);
  }

  /** Puts a hand to a good machine's input; what a fault has fixed stays. */
  hold(variable: number, to: number): void {
    if (this.fixed[variable] || this.variables[variable] === to) return;
    this.variables[variable] = to;
    this.#hands += 1;
  }

  /**
   * Does a condition of the machine hold at the last solution? What cannot be told (NaN) does not. A condition that
   * looked at nothing that moves is asked once for each solution.
   */
  holds(condition: Evaluate): boolean {
    const kept = this.#current;
    const index = kept === undefined ? undefined : this.#conditions.get(condition);
    if (kept === undefined || index === undefined) return isTrue(condition(this));
    if (kept.hands !== this.#hands) {
      kept.known.fill(Number.NaN);
      kept.hands = this.#hands;
    }
    const before = kept.known[index];
    if (!Number.isNaN(before)) return before !== 0;
    this.#sawMoving = false;
    const value = condition(this);
    if (!this.#sawMoving) kept.known[index] = value;
    return isTrue(value);
  }

  /** Brings the solution up to the states; costs little when the machine was in them before, with this fault. */
  solve(): void {
    if (this.#kept.length === 0) return;
    this.#uses += 1;
    let oldest = this.#kept[0];
    for (const kept of this.#kept) {
      if (kept.fault === this.#fault && this.#standsAs(kept.states)) {
        this.#use(kept);
        return;
      }
      if (kept.lastUsed < oldest.lastUsed) oldest = kept;
    }
    this.#fill(oldest);
    oldest.power.ac.solve();
    oldest.power.dc.solve();
    this.#use(oldest);
  }

  /** The circuits with the present solution; undefined while there is none. */
  get power(): P | undefined {
    return this.#current?.power;
  }

  #standsAs(states: Uint8Array): boolean {
    for (const set of this.#electric) if (states[set] !== this.states[set]) return false;
    return true;
  }

  #use(kept: Kept<P>): void {
    this.#current = kept;
    kept.lastUsed = this.#uses;
    this.#ac = kept.power.ac;
    this.#dc = kept.power.dc;
  }

  /** Enters the element values that these states and this fault give, where they are not there already. */
  #fill(kept: Kept<P>): void {
    const { elements } = this.network.machine;
    if (kept.fault < 0) {
      for (let element = 0; element < elements.length; element++) this.#enter(kept.power, element);
    } else {
      for (const set of this.#electric) {
        if (kept.states[set] === this.states[set]) continue;
        for (const element of this.network.elementsOf[set]) this.#enter(kept.power, element);
      }
      if (kept.fault !== this.#fault) {
        for (const element of kept.changed) this.#enter(kept.power, element);
        for (const element of this.#changed) this.#enter(kept.power, element);
      }
    }
    kept.states.set(this.states);
    kept.fault = this.#fault;
    kept.changed = this.#changed;
    kept.known.fill(Number.NaN);
    kept.hands = this.#hands;
  }

  /** Writes the DC siemens of every element in its present state; sources are out (open), gates shut as they are. */
  readOhms(siemens: Float64Array): void {
    const { firstRow, gate, source, machine } = this.network;
    for (let element = 0; element < machine.elements.length; element++) {
      const { set } = machine.elements[element];
      const row = firstRow[element] + (set < 0 ? 0 : this.states[set]);
      siemens[element] = source[element] < 0 ? this.#rows.dc[row] : 0;
      if (gate[element] >= 0) siemens[gate[element]] = this.#rows.shut[row] ? Infinity : 0;
    }
  }

  #enter({ ac, dc }: Power, element: number): void {
    const rows = this.#rows;
    const { set } = this.network.machine.elements[element];
    const row = this.network.firstRow[element] + (set < 0 ? 0 : this.states[set]);
    const source = this.network.source[element];
    if (source < 0) {
      ac.re[element] = rows.re[row];
      ac.im[element] = rows.im[row];
      dc.re[element] = rows.dc[row];
      return;
    }
    ac.emfRe[source] = rows.emfRe[row];
    ac.emfIm[source] = rows.emfIm[row];
    dc.emfRe[source] = rows.emfDc[row];
    const gate = this.network.gate[element];
    if (gate < 0) return;
    ac.re[gate] = dc.re[gate] = rows.shut[row] ? Infinity : 0;
  }

  volts(element: number, kind?: "~" | "="): number {
    const { a, b } = this.network.machine.elements[element];
    return this.between(a, b, kind);
  }

  between(a: number, b: number, kind?: "~" | "="): number {
    if (kind === "~") return this.#ac.magnitude(a, b);
    if (kind === "=") return this.#dc.magnitude(a, b);
    const ac = this.#ac.magnitude(a, b);
    const dc = this.#dc.magnitude(a, b);
    return Math.sqrt(ac * ac + dc * dc);
  }

  amps(element: number, kind?: "~" | "="): number {
    if (kind === "~") return this.#ac.ampsMagnitude(element);
    if (kind === "=") return this.#dc.ampsMagnitude(element);
    const ac = this.#ac.ampsMagnitude(element);
    const dc = this.#dc.ampsMagnitude(element);
    return Math.sqrt(ac * ac + dc * dc);
  }

  watts(element: number): number {
    if (this.#ac === dead || this.network.source[element] >= 0) return 0;
    return heat(this.volts(element, "~"), this.#ac.re[element]) + heat(this.volts(element, "="), this.#dc.re[element]);
  }

  cross(elementA: number, elementB: number): number {
    const a = this.#ac.amps(elementA);
    const b = this.#ac.amps(elementB);
    return Math.abs(a.re * b.im - a.im * b.re);
  }

  apart(elementA: number, elementB: number): number {
    const a = this.#ac.amps(elementA);
    const b = this.#ac.amps(elementB);
    const dc = this.#dc.amps(elementA).re + this.#dc.amps(elementB).re;
    const re = a.re + b.re;
    const im = a.im + b.im;
    return Math.sqrt(re * re + im * im + dc * dc);
  }

  state(set: number): number {
    if (!this.#isElectric[set]) this.#sawMoving = true;
    return this.states[set];
  }

  variable(index: number): number {
    if (this.#isMoving[index]) this.#sawMoving = true;
    return this.variables[index];
  }

  parameter(index: number): number {
    return this.#parameters?.[index] ?? this.network.machine.parameters[index].rated.nominal;
  }

  good(index: number): number {
    this.#sawMoving = true;
    return this.goods === undefined ? this.network.machine.goods[index](this) : this.goods[index];
  }
}

/** Watts in an element of `siemens` conductance under `volts`; a short turns nothing into heat. */
function heat(volts: number, siemens: number): number {
  return siemens === Infinity ? 0 : volts * volts * siemens;
}

function isTrue(value: number): boolean {
  return value !== 0 && !Number.isNaN(value);
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
