import type { Effect } from "../fault/index.ts";
import type { Evaluate, Moment } from "../part/index.ts";
import type { Network } from "./network.ts";
import { type Electrics, type Kept, noPower, type Power, type Solutions } from "./solutions.ts";

/** What was looked at: elements by their own volts or watts, nodes by the volts between two of them; 1 where so. */
export interface Looked {
  readonly elements: Uint8Array;
  readonly nodes: Uint8Array;
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
  /** Everything looked at since this was last cleared, amperes apart. */
  readonly looked: Looked;
  readonly #parameters: ArrayLike<number> | undefined;
  readonly #solutions: Solutions<P>;
  /** State sets that the circuit follows. */
  readonly #isElectric: Uint8Array;
  /** Variables that move while a machine runs: the world and the outputs. Hands and knobs stand still. */
  readonly #isMoving: Uint8Array;
  #current: Kept<P> | undefined;
  #filled = 0;
  #ac: Electrics = noPower.ac;
  #dc: Electrics = noPower.dc;
  #hands: number;
  #sawMoving = false;

  /** `solutions`: where it is solved; if they have no circuits, the machine has no power, and only hands and world move it. */
  constructor(network: Network, solutions: Solutions<P>, parameters?: ArrayLike<number>) {
    const { machine } = network;
    this.network = network;
    this.states = new Uint8Array(machine.stateSets.length);
    this.variables = new Float64Array(machine.variables.length);
    this.stuck = new Uint8Array(machine.stateSets.length);
    this.fixed = new Uint8Array(machine.variables.length);
    this.looked = { elements: new Uint8Array(machine.elements.length), nodes: new Uint8Array(machine.nodes.length) };
    this.#parameters = parameters;
    this.#isElectric = Uint8Array.from(network.elementsOf, (elements) => Number(elements.length > 0));
    this.#isMoving = Uint8Array.from(machine.variables, ({ role }) => Number(role === "world" || role === "output"));
    this.#solutions = solutions;
    this.#hands = solutions.newHands();
  }

  /** Puts the machine at rest, with the effects of a fault in place. */
  load(effects: readonly Effect[]): void {
    this.#solutions.load(effects);
    this.#hands = this.#solutions.newHands();
    this.states.fill(0);
    this.stuck.fill(0);
    this.fixed.fill(0);
    this.network.machine.variables.forEach((variable, index) => {
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
  }

  /** The fault that was loaded here last, where another may have been loaded into the same solutions since. */
  loadAgain(effects: readonly Effect[]): void {
    this.#solutions.load(effects);
  }

  /** Takes over states and variables, as stored in a picture. */
  place(states: Uint8Array, variables: Float64Array): void {
    if (variables.some((value, index) => !this.#isMoving[index] && this.variables[index] !== value)) {
      this.#hands = this.#solutions.newHands();
    }
    this.states.set(states);
    this.variables.set(variables);
  }

  /** Puts a hand to a good machine's input; what a fault has fixed stays. */
  hold(variable: number, to: number): void {
    if (this.fixed[variable] || this.variables[variable] === to) return;
    this.variables[variable] = to;
    this.#hands = this.#solutions.newHands();
  }

  /**
   * Does a condition of the machine hold at the last solution? What cannot be told (NaN) does not. A condition that
   * looked at nothing that moves is asked once for each solution.
   */
  holds(condition: Evaluate): boolean {
    const kept = this.#current;
    const index = kept === undefined ? undefined : this.#solutions.conditions.get(condition);
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
    this.#current = this.#solutions.at(this.states);
    this.#filled = this.#current?.filled ?? 0;
    const { ac, dc } = this.#current?.power ?? noPower;
    this.#ac = ac;
    this.#dc = dc;
  }

  /** Has nothing been solved in place of the present solution? */
  get isSolved(): boolean {
    return this.#current !== undefined && this.#current.filled === this.#filled;
  }

  /** The circuits with the present solution; undefined while there is none. */
  get power(): P | undefined {
    return this.#current?.power;
  }

  /** Writes the DC siemens of every element in its present state; sources are out (open), gates shut as they are. */
  readOhms(siemens: Float64Array): void {
    this.#solutions.readOhms(this.states, siemens);
  }

  volts(element: number, kind?: "~" | "="): number {
    const { a, b } = this.network.machine.elements[element];
    this.looked.elements[element] = 1;
    return this.#apart(a, b, kind);
  }

  between(a: number, b: number, kind?: "~" | "="): number {
    this.looked.nodes[a] = 1;
    this.looked.nodes[b] = 1;
    return this.#apart(a, b, kind);
  }

  #apart(a: number, b: number, kind?: "~" | "="): number {
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
    if (this.#current === undefined || this.network.source[element] >= 0) return 0;
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
