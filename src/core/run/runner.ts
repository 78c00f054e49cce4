import { type Circuit, compile, type Guard, type Solver } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import { Live } from "./live.ts";
import { MovedRuns } from "./moved-runs.ts";
import { type Network, networkOf } from "./network.ts";
import type { Member, Run } from "./picture.ts";
import { type GoodValues, Programme } from "./programme.ts";
import { Solutions } from "./solutions.ts";
import { Solved } from "./solved.ts";

/** Nothing here hangs on ten nanovolts, nor on the seventh digit: no condition of a part, and no meter on site. */
const guard: Guard = { relative: 1e-6, floorVolts: 1e-8 };

interface Circuits {
  readonly ac: Solver;
  readonly dc: Solver;
}

/** States a machine comes back to: standing, turning, heating, each with the door open, and those under a fault's strengths. */
const keptSolutions = 12;
/** Of a machine with its rated numbers drawn, which is read at a few points only. */
const keptOfDrawn = 6;

/**
 * Runs one machine with one fault after another; the circuit is compiled once and all buffers are reused.
 * Deterministic: the same effects give the same run, whatever was run before and in whatever order they are named.
 *
 * @source sheet-format 2, rules of evaluation 3 to 10
 */
export class Runner {
  readonly machine: Machine;
  readonly #circuit: Circuit;
  readonly #network: Network;
  /** For reading; the programme has its own. */
  readonly #reading: Live<Circuits>;
  #restored: readonly Effect[] | undefined;
  readonly #kept: number;
  readonly #programme: Programme;
  readonly #moved: MovedRuns;
  readonly #goods = new Map<string, Float64Array>();
  #healthy: Run | undefined;

  constructor(machine: Machine, parameters?: ArrayLike<number>, circuit?: Circuit, kept = keptSolutions) {
    this.machine = machine;
    this.#kept = kept;
    this.#network = networkOf(machine, parameters);
    this.#circuit = circuit ?? compile(this.#network.shape);
    this.#moved = new MovedRuns(machine);
    // What was run is often read at once: the solutions it came through are then at hand.
    const solutions = new Solutions(this.#network, this.#powers(), parameters);
    this.#reading = new Live(this.#network, solutions, parameters);
    this.#programme = new Programme(new Live(this.#network, solutions, parameters));
  }

  /** The good machine's run, gone through before any other: whoever only solves pictures again needs none. */
  get healthy(): Run {
    this.#healthy ??= this.#runHealthy();
    return this.#healthy;
  }

  #runHealthy(): Run {
    const { run } = this.#programme.run([]);
    this.#noteGoods(run);
    for (const output of this.machine.serviceOutputs) {
      this.#noteGoods(this.#programme.commanded([], output, this.#commandId(output)));
    }
    this.#programme.compareWith(this.#goods);
    return run;
  }

  /** Circuits, made as they are needed. */
  #powers(): () => Circuits | undefined {
    let left = this.#kept;
    return () => (left-- > 0 ? { ac: this.#circuit.ac(guard), dc: this.#circuit.dc(guard) } : undefined);
  }

  /** The same machine with its rated numbers drawn as given (as `Machine.parameters`), on the same compiled circuit. */
  drawn(parameters: ArrayLike<number>): Runner {
    return new Runner(this.machine, parameters, this.#circuit, keptOfDrawn);
  }

  /** The whole programme and all conditions with these effects; none gives the healthy run again. */
  run(effects: readonly Effect[]): Run {
    this.#healthy ??= this.#runHealthy();
    const moved = this.#moved.find(effects);
    if (moved !== undefined) return this.#programme.alike(moved, effects);
    const ran = this.#programme.run(effects);
    this.#moved.keep(effects, this.#programme.looked, ran);
    return ran.run;
  }

  /** Service test: plugged in, and one output commanded. Pictures are under `command ${output id}@${moment}`. */
  commanded(effects: readonly Effect[], output: number): Run {
    this.#healthy ??= this.#runHealthy();
    return this.#programme.commanded(effects, output, this.#commandId(output));
  }

  /**
   * Solves one member of a picture again, so that anything can be read from it. `at` is the picture's key, for
   * formulas "of good". What is given is one live view: the next `restore` or run of this runner changes it.
   */
  restore(effects: readonly Effect[], member: Member, at?: string): Solved {
    const live = this.#reading;
    if (this.#restored !== effects) live.load(effects);
    else live.loadAgain(effects);
    this.#restored = effects;
    live.place(member.states, member.variables);
    live.goods = at === undefined ? undefined : this.goods.get(at);
    live.solve();
    const { power } = live;
    if (power === undefined) throw new Error("a solved machine has no solution");
    return new Solved(live, power);
  }

  #commandId(output: number): string {
    return `command ${this.machine.variables[output]?.id ?? output}`;
  }

  #noteGoods(run: Run): void {
    if (this.machine.goods.length === 0) return;
    for (const [key, picture] of run.pictures) {
      const values = new Float64Array(this.machine.goods.length);
      for (const member of picture.members) {
        const { live } = this.restore([], member);
        this.machine.goods.forEach((good, index) => {
          values[index] += member.weight * good(live);
        });
      }
      this.#goods.set(key, values);
    }
  }

  /** What the good machine's "of good" formulas give, by picture key. */
  get goods(): GoodValues {
    this.#healthy ??= this.#runHealthy();
    return this.#goods;
  }
}

/** A runner for one machine. */
export function openRunner(machine: Machine): Runner {
  return new Runner(machine);
}

/** One run of one machine; for many, open a runner. */
export function runMachine(machine: Machine, effects: readonly Effect[]): Run {
  return openRunner(machine).run(effects);
}
