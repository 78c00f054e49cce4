import type { Effect, Mode } from "../fault/index.ts";
import { type DeadState, openRunner, type Picture, type Run, type Runner } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import { type Atom, atomsOf, effectsOf, type Fault, FaultMap } from "./atom.ts";
import { type DeadAsk, DeadReader } from "./dead-reading.ts";
import { type LiveAsk, LiveReader } from "./live-reading.ts";
import { measuredOf } from "./measure.ts";
import type { PredictedTerm, Prediction, Probe, ProbeState } from "./prediction.ts";
import { STRENGTH_SPREAD, STRENGTH_STEP, strengthsOf, strongerOf } from "./severity.ts";
import { sigmaOf, Tolerances } from "./tolerance.ts";

/** Insulation is known to a factor, not to per cents (from memory). */
const INSULATION_SPREAD = 0.3;
/** Share of live readings that are taken after the machine has timed out, where that changes anything (from memory). */
const AFTER_TIME_OUT = 0.3;

/**
 * What every probe shows on one machine under any fault: mean and spread from part tolerances to first order, several
 * terms for severities, hunts and rated numbers too wide for that. Made on demand and kept.
 */
export class Predictor {
  readonly machine: Machine;
  readonly modes: readonly Mode[];
  readonly atoms: readonly Atom[];
  readonly #tolerances: Tolerances;
  readonly #live: LiveReader;
  #dead: DeadReader | undefined;
  #opened: Runner | undefined;
  readonly #runs = new FaultMap<Run>();
  readonly #kept = new Map<string, FaultMap<Prediction>>();
  readonly #nodes: ReadonlyMap<string, number>;

  constructor(machine: Machine, modes: readonly Mode[]) {
    this.machine = machine;
    this.modes = modes;
    this.atoms = atomsOf(modes);
    this.#tolerances = new Tolerances(machine);
    this.#live = new LiveReader(machine, this.#tolerances);
    this.#nodes = new Map(machine.points.map((point) => [point.id, point.node]));
  }

  /** The runner behind the live readings; its buffers are shared, so finish reading before the next call. */
  get runner(): Runner {
    this.#opened ??= openRunner(this.machine);
    return this.#opened;
  }

  /** The machine with a fault, through its whole programme. */
  runOf(fault: Fault): Run {
    if (fault.length === 0) return this.runner.healthy;
    let run = this.#runs.get(fault);
    if (run === undefined) {
      run = this.runner.run(effectsOf(fault));
      this.#runs.set(fault, run);
    }
    return run;
  }

  /** Does this machine have what the probe touches, and the step it is made in? */
  has(probe: Probe): boolean {
    const points = [probe.from, probe.to, ...(probe.joinedWith ?? [])].filter((point) => point !== undefined);
    if (probe.measure !== undefined) return this.machine.causes.some(({ id }) => id === probe.measure?.cause);
    if (!points.every((point) => this.#nodes.has(point))) return false;
    const { state } = probe;
    if (state.kind !== "live") return true;
    if (state.command !== undefined) return this.#output(state.command) >= 0;
    const step = state.condition ?? state.step;
    return [...this.machine.steps, ...this.machine.conditions].some(({ id }) => id === step);
  }

  /** Can many faults be read quickly here, with no programme to run? */
  isQuick(probe: Probe): boolean {
    return probe.measure !== undefined || probe.state.kind !== "live";
  }

  /** What the display would show, without the meter's own error; the meter only loads the circuit. */
  shows(probe: Probe, inputOhms: number, fault: Fault): Prediction {
    const series = isVolts(probe) ? `${probe.id} ${inputOhms}` : probe.id;
    let kept = this.#kept.get(series);
    if (kept === undefined) {
      kept = new FaultMap();
      this.#kept.set(series, kept);
    }
    let prediction = kept.get(fault);
    if (prediction === undefined) {
      prediction = { terms: this.#terms(probe, inputOhms, fault) };
      kept.set(fault, prediction);
    }
    return prediction;
  }

  #terms(probe: Probe, inputOhms: number, fault: Fault): readonly PredictedTerm[] {
    if (probe.measure !== undefined) return measuredOf(this.machine, probe.measure, fault);
    if (probe.state.kind === "live") return this.#liveTerms(probe, probe.state, inputOhms, fault);
    return this.#deadTerms(probe, fault);
  }

  #node(point: string | undefined): number {
    const node = this.#nodes.get(point ?? "");
    if (node === undefined) throw new RangeError(`predict: no point ${point ?? "(none)"} on ${this.machine.title}`);
    return node;
  }

  #deadTerms(probe: Probe, fault: Fault): readonly PredictedTerm[] {
    const reader = this.#deadReader;
    const ask = this.#deadAsk(probe);
    const strengths = strengthsOf(fault);
    const values = strengths.map(({ effects }) => reader.value(effects, ask));
    return strengths.flatMap(({ weight, effects }, s): readonly PredictedTerm[] => {
      const value = values[s];
      if (!Number.isFinite(value)) return [{ kind: "open", weight }];
      const { pushes } = reader.read(effects, ask);
      const parameter = fault.length > 1 || ask.farads ? undefined : this.#tolerances.widest(pushes, value);
      const rest = pushes.filter((push) => push.parameter !== parameter);
      const sigma = Math.hypot(
        sigmaOf(rest),
        strengthSigma(values, s),
        ...strongerOf(fault).map((stronger) => pairSigma(reader.value(stronger, ask), value)),
        probe.quantity === "insulation ohms" ? INSULATION_SPREAD * value : 0,
      );
      if (parameter === undefined) return [{ kind: "value", weight, mean: value, sigma }];
      return spreadOver(reader.over(parameter, effects, ask), weight, value, sigma);
    });
  }

  get #deadReader(): DeadReader {
    this.#dead ??= new DeadReader(this.machine, this.#tolerances);
    return this.#dead;
  }

  #deadAsk(probe: Probe): DeadAsk {
    const part = probe.state.kind === "bench" ? this.#partAt(probe.from) : undefined;
    const loose: DeadState = { pulled: [], freed: part === undefined ? [] : [part], hands: new Map() };
    return {
      state: { ...(probe.state.kind === "dead" ? probe.state : loose), joined: joinedIn(probe) },
      farads: probe.quantity === "farads",
      from: this.#node(probe.from),
      to: this.#node(probe.to),
    };
  }

  /** A point is named after its part: `heater.s1`. */
  #partAt(point: string | undefined): string | undefined {
    return this.machine.parts.find(({ id }) => point?.startsWith(`${id}.`))?.id;
  }

  #liveTerms(
    probe: Probe,
    state: ProbeState & { kind: "live" },
    inputOhms: number,
    fault: Fault,
  ): readonly PredictedTerm[] {
    const pictures = this.#pictures(state, fault);
    const ask = this.#liveAsk(probe, inputOhms);
    const strengths = strengthsOf(fault);
    return pictures.flatMap(({ weight: share, key, picture }) =>
      picture.members.flatMap((member): readonly PredictedTerm[] => {
        const at = (effects: readonly Effect[]) => this.runner.restore(effects, member, key);
        const values = strengths.map(({ effects }) => this.#live.value(at(effects), ask));
        return strengths.map(({ weight, effects }, s): PredictedTerm => {
          const { value, pushes } = this.#live.read(at(effects), ask);
          const pair = strongerOf(fault).map((stronger) => pairSigma(this.#live.value(at(stronger), ask), value));
          const sigma = Math.hypot(sigmaOf(pushes), strengthSigma(values, s), ...pair);
          return { kind: "value", weight: share * member.weight * weight, mean: value, sigma };
        });
      }),
    );
  }

  /** The pictures a reading may be taken in: minutes into the step, and after a time-out where that differs. */
  #pictures(
    state: ProbeState & { kind: "live" },
    fault: Fault,
  ): readonly { weight: number; key: string; picture: Picture }[] {
    const output = state.command === undefined ? -1 : this.#output(state.command);
    const run = output < 0 ? this.runOf(fault) : this.runner.commanded(effectsOf(fault), output);
    const step = output < 0 ? (state.condition ?? state.step ?? "") : `command ${state.command}`;
    const steady = run.pictures.get(`${step}@minutes`) ?? run.pictures.get(step);
    const end = run.pictures.get(`${step}@end`);
    if (steady === undefined) throw new RangeError(`predict: no step or condition ${step} on ${this.machine.title}`);
    if (end === undefined || sameMembers(steady, end)) return [{ weight: 1, key: `${step}@minutes`, picture: steady }];
    return [
      { weight: 1 - AFTER_TIME_OUT, key: `${step}@minutes`, picture: steady },
      { weight: AFTER_TIME_OUT, key: `${step}@end`, picture: end },
    ];
  }

  #output(command: string): number {
    return this.machine.serviceOutputs.find((output) => this.machine.variables[output].id === command) ?? -1;
  }

  #liveAsk(probe: Probe, inputOhms: number): LiveAsk {
    switch (probe.quantity) {
      case "volts":
      case "volts dc":
        return {
          what: "volts",
          kind: probe.quantity === "volts" ? "~" : "=",
          from: this.#node(probe.from),
          to: this.#node(probe.to),
          inputOhms,
        };
      case "amps":
      case "watts":
        return { what: probe.quantity };
      case "leakage amps":
        return { what: "leakage" };
      default:
        throw new RangeError(`predict: ${probe.quantity} cannot be read on a live machine`);
    }
  }
}

function joinedIn({ from, joinedWith }: Probe): readonly string[] {
  return from === undefined || joinedWith === undefined ? [] : [from, ...joinedWith];
}

/** Is this a reading that the meter's own impedance disturbs? */
function isVolts(probe: Probe): boolean {
  return probe.quantity === "volts" || probe.quantity === "volts dc";
}

/** Spread about one strength, from how the reading changes to the strengths beside it. */
function strengthSigma(values: readonly number[], s: number): number {
  const known = [s - 1, s, s + 1].filter((i) => Number.isFinite(values[i]));
  if (known.length < 2) return 0;
  const first = known[0];
  const last = known[known.length - 1];
  const slope = (values[last] - values[first]) / ((last - first) * STRENGTH_STEP);
  return Math.abs(slope) * STRENGTH_SPREAD;
}

function pairSigma(stronger: number, asWritten: number): number {
  return Number.isFinite(stronger) ? 0.6 * Math.abs(stronger - asWritten) : 0;
}

/** One term a point of a wide number; each covers half the way to its neighbours. */
function spreadOver(
  points: readonly { readonly weight: number; readonly value: number }[],
  weight: number,
  middle: number,
  sigma: number,
): readonly PredictedTerm[] {
  return points.map(({ weight: share, value }, i): PredictedTerm => {
    if (!Number.isFinite(value)) return { kind: "open", weight: weight * share };
    const beside = [points[i - 1], points[i + 1]].flatMap((point) =>
      point !== undefined && Number.isFinite(point.value) ? [Math.abs(point.value - value)] : [],
    );
    const gap = beside.length === 0 ? 0 : 0.4 * Math.min(...beside);
    return {
      kind: "value",
      weight: weight * share,
      mean: value,
      sigma: Math.hypot((sigma * value) / (middle || 1), gap),
    };
  });
}

function sameMembers(a: Picture, b: Picture): boolean {
  if (a === b || a.members === b.members) return true;
  if (a.members.length !== b.members.length) return false;
  return a.members.every((member, i) => {
    const other = b.members[i];
    return (
      member.states.every((state, s) => state === other.states[s]) &&
      member.variables.every((value, v) => Math.abs(value - other.variables[v]) <= 1e-9 * Math.abs(value))
    );
  });
}
