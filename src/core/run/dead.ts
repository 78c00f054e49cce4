import { type Circuit, compile, type Ohmmeter, type Shape } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import { Control } from "./control.ts";
import { Live } from "./live.ts";
import { type Network, networkOf } from "./network.ts";
import { pluggedInput } from "./programme.ts";
import { Settler } from "./settle.ts";
import { Solutions } from "./solutions.ts";

/** How a machine is prepared before it is measured dead; the mains plug is out in any case. */
export interface DeadState {
  /** Plugs pulled: all their contacts are open. */
  readonly pulled: readonly string[];
  /** Parts taken out of circuit: the joints of all their pins are open. */
  readonly freed: readonly string[];
  /** Inputs set by hand, by id: a door shut, a key held. */
  readonly hands: ReadonlyMap<string, number>;
  /** Pins of the mains plug joined together, as point ids: line and neutral, for insulation against earth. */
  readonly joined?: readonly string[];
}

/** The record of the appliance's own mains plug. */
const mainsPlug = "plug";

/** Gives ohms between points of one machine with the plug out, states at rest, DC. */
export class DeadBench {
  readonly machine: Machine;
  readonly #circuit: Circuit;
  readonly #network: Network;
  readonly #live: Live;
  readonly #settler: Settler;
  readonly #ohmmeter: Ohmmeter;
  readonly #jointsOf: ReadonlyMap<string, readonly number[]>;
  readonly #jumpers: readonly Jumper[];

  constructor(machine: Machine, parameters?: ArrayLike<number>, circuit?: Circuit) {
    this.machine = machine;
    this.#network = networkOf(machine, parameters);
    this.#jumpers = jumpersOf(machine, this.#network.shape.elements.length);
    this.#circuit = circuit ?? compile(withJumpers(this.#network.shape, this.#jumpers));
    this.#live = new Live(this.#network, new Solutions(this.#network, () => undefined, parameters), parameters);
    this.#settler = new Settler(this.#live, new Control());
    this.#ohmmeter = this.#circuit.ohmmeter();
    const joints = new Map<string, number[]>();
    for (const part of machine.parts) {
      if (part.joint?.part === undefined) continue;
      joints.set(part.joint.part, [...(joints.get(part.joint.part) ?? []), ...part.elements]);
    }
    this.#jointsOf = joints;
  }

  /** The same machine with its rated numbers drawn as given, on the same compiled circuit. */
  drawn(parameters: ArrayLike<number>): DeadBench {
    return new DeadBench(this.machine, parameters, this.#circuit);
  }

  /**
   * The machine with these effects, prepared and at rest: an ohmmeter filled and solved. Hands move what they move (a
   * door switch), with no power. The mains sources and rails are out. Without an ohmmeter of one's own it is one
   * instrument: the next call refills it.
   */
  prepare(effects: readonly Effect[], state: DeadState, ohmmeter = this.#ohmmeter): Ohmmeter {
    this.fill(effects, state, ohmmeter.g);
    ohmmeter.solve();
    return ohmmeter;
  }

  /** An ohmmeter of one's own. */
  ohmmeter(): Ohmmeter {
    return this.#circuit.ohmmeter();
  }

  /** Only the siemens of every element of the shape, for tables of many faults; `out` has one number an element. */
  fill(effects: readonly Effect[], { pulled, freed, hands, joined = [] }: DeadState, out: Float64Array): void {
    const live = this.#live;
    live.load(effects);
    this.machine.variables.forEach(({ id }, index) => {
      const to = id === pluggedInput ? 0 : hands.get(id);
      if (to !== undefined) live.hold(index, to);
    });
    this.#settler.settle("minutes");
    live.readOhms(out);
    for (const plug of this.machine.plugs) {
      if (plug.id !== mainsPlug && !pulled.includes(plug.id)) continue;
      for (const element of plug.elements) out[element] = 0;
    }
    for (const { element, points } of this.#jumpers) {
      out[element] = points.every((point) => joined.includes(point)) ? Number.POSITIVE_INFINITY : 0;
    }
    for (const part of freed) for (const element of this.#jointsOf.get(part) ?? []) out[element] = 0;
  }
}

/** A wire that may join two pins of the mains plug, an element behind all others. */
interface Jumper {
  readonly element: number;
  readonly points: readonly [string, string];
  readonly nodes: readonly [number, number];
}

function jumpersOf(machine: Machine, first: number): Jumper[] {
  const plug = machine.plugs.find(({ id }) => id === mainsPlug);
  const pins = plug?.pins.map(({ point }) => machine.points[point]) ?? [];
  const pairs = pins.flatMap((one, index) => pins.slice(index + 1).map((other) => [one, other] as const));
  return pairs.map(([one, other], index) => ({
    element: first + index,
    points: [one.id, other.id],
    nodes: [one.node, other.node],
  }));
}

function withJumpers(shape: Shape, jumpers: readonly Jumper[]): Shape {
  return { ...shape, elements: [...shape.elements, ...jumpers.map(({ nodes: [a, b] }) => ({ a, b }))] };
}

/** One dead machine's ohmmeter; for many faults, open a `DeadBench`. */
export function deadCircuit(machine: Machine, effects: readonly Effect[], state: DeadState): Ohmmeter {
  return new DeadBench(machine).prepare(effects, state);
}
