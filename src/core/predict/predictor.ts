import type { Mode } from "../fault/index.ts";
import type { Member, Run, Solved } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import { type Atom, atomsOf, effectsOf, type Fault, FaultMap } from "./atom.ts";
import { DeadTerms } from "./dead-terms.ts";
import { LiveTerms } from "./live-terms.ts";
import { measuredOf } from "./measure.ts";
import type { PredictedTerm, Prediction, Probe } from "./prediction.ts";
import { drivesProtectors, ratingPoints } from "./rating-points.ts";
import { Tolerances } from "./tolerance.ts";

/** One run of one machine with one fault, and its share. */
export interface House {
  readonly weight: number;
  readonly run: Run;
  solved(member: Member, key: string): Solved;
}

/**
 * What every probe shows on one machine under any fault: mean and spread from part tolerances to first order, several
 * terms for severities, hunts and rated numbers too wide for that. Made on demand and kept.
 */
export class Predictor {
  readonly machine: Machine;
  readonly modes: readonly Mode[];
  readonly atoms: readonly Atom[];
  readonly #tolerances: Tolerances;
  readonly #nodes: ReadonlyMap<string, number>;
  readonly #live: LiveTerms;
  readonly #kept = new Map<string, FaultMap<Prediction>>();
  readonly #had = new Map<string, boolean>();
  #dead: DeadTerms | undefined;
  #points: readonly { readonly weight: number; readonly live: LiveTerms }[] | undefined;

  constructor(machine: Machine, modes: readonly Mode[]) {
    this.machine = machine;
    this.modes = modes;
    this.atoms = atomsOf(modes);
    this.#tolerances = new Tolerances(machine);
    this.#nodes = new Map(machine.points.map((point) => [point.id, point.node]));
    this.#live = new LiveTerms(machine, this.#tolerances, this.#nodes);
  }

  /** The machine with a fault, through its whole programme. */
  runOf(fault: Fault): Run {
    return this.#live.runOf(fault);
  }

  /**
   * The machine with a fault as it may stand in different houses: a few of them, by weight, where the fault drives current
   * through protectors whose rating is a range; else the one. Each can be solved again, good until the next call.
   */
  houses(fault: Fault): readonly House[] {
    if (!drivesProtectors(fault)) return [this.#house(1, this.#live, fault)];
    this.#points ??= ratingPoints(this.machine).map(({ weight, parameters }) => ({
      weight,
      live: parameters.every((x, p) => x === this.machine.parameters[p].rated.nominal)
        ? this.#live
        : this.#live.drawn(parameters),
    }));
    return this.#points.map(({ weight, live }) => this.#house(weight, live, fault));
  }

  #house(weight: number, live: LiveTerms, fault: Fault): House {
    const effects = effectsOf(fault);
    return { weight, run: live.runOf(fault), solved: (member, key) => live.solved(effects, member, key) };
  }

  /** Does this machine have what the probe touches, and the step it is made in? */
  has(probe: Probe): boolean {
    let had = this.#had.get(probe.id);
    if (had === undefined) {
      had = this.#has(probe);
      this.#had.set(probe.id, had);
    }
    return had;
  }

  /** Can many faults be read quickly here, with no programme to run? */
  isQuick(probe: Probe): boolean {
    return probe.measure !== undefined || probe.state.kind !== "live";
  }

  /**
   * What the display would show, without the meter's own error; the meter only loads the circuit. A fault that changes
   * nothing gives the very prediction of the good machine.
   */
  shows(probe: Probe, inputOhms: number, fault: Fault): Prediction {
    const series = isVolts(probe) ? `${probe.id} ${inputOhms}` : probe.id;
    let kept = this.#kept.get(series);
    if (kept === undefined) {
      kept = new FaultMap();
      this.#kept.set(series, kept);
    }
    let prediction = kept.get(fault);
    if (prediction === undefined) {
      const terms = this.#terms(probe, inputOhms, fault);
      prediction = terms === undefined ? this.shows(probe, inputOhms, []) : { terms };
      kept.set(fault, prediction);
    }
    return prediction;
  }

  /** The bare reading at the very strength that the part's kind writes, base units; Infinity where no path is. */
  value(probe: Probe, inputOhms: number, fault: Fault): number {
    if (probe.measure !== undefined) {
      const [term] = measuredOf(this.machine, probe.measure, fault);
      return term.kind === "open" ? Number.POSITIVE_INFINITY : term.mean;
    }
    if (probe.state.kind === "live") return this.#live.value(probe, probe.state, inputOhms, fault);
    return this.#deadTerms.value(probe, fault);
  }

  /** What it shows at the very strength that the part's kind writes, spread by tolerances alone. */
  asWritten(probe: Probe, inputOhms: number, fault: Fault): PredictedTerm {
    if (probe.measure !== undefined) return measuredOf(this.machine, probe.measure, fault)[0];
    if (probe.state.kind === "live") return this.#live.asWritten(probe, probe.state, inputOhms, fault);
    return this.#deadTerms.asWritten(probe, fault);
  }

  #terms(probe: Probe, inputOhms: number, fault: Fault): readonly PredictedTerm[] | undefined {
    if (probe.measure !== undefined) return measuredOf(this.machine, probe.measure, fault);
    if (probe.state.kind === "live") return this.#live.of(probe, probe.state, inputOhms, fault);
    return this.#deadTerms.of(probe, fault);
  }

  get #deadTerms(): DeadTerms {
    this.#dead ??= new DeadTerms(this.machine, this.#tolerances, this.#nodes);
    return this.#dead;
  }

  #has({ from, to, joinedWith = [], measure, state }: Probe): boolean {
    const { causes, steps, conditions } = this.machine;
    if (measure !== undefined) return causes.some(({ id }) => id === measure.cause);
    const points = [from, to, ...joinedWith].filter((point) => point !== undefined);
    if (!points.every((point) => this.#nodes.has(point))) return false;
    if (state.kind !== "live") return true;
    if (state.command !== undefined) return this.#live.hasOutput(state.command);
    const step = state.condition ?? state.step;
    return [...steps, ...conditions].some(({ id }) => id === step);
  }
}

/** Is this a reading that the meter's own impedance disturbs? */
function isVolts(probe: Probe): boolean {
  return probe.quantity === "volts" || probe.quantity === "volts dc";
}
