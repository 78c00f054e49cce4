import { quadrature } from "../chance/index.ts";
import type { Effect } from "../fault/index.ts";
import { type Member, openRunner, type Picture, type Run, type Runner, type Solved } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import { effectsOf, type Fault, FaultMap } from "./atom.ts";
import { type LiveAsk, LiveReader } from "./live-reading.ts";
import type { PredictedTerm, Probe, ProbeState } from "./prediction.ts";
import { stateName } from "./probe.ts";
import { strengthsOf, strongerOf } from "./severity.ts";
import { alike, spreadOver, strengthSigma, strongerSigma } from "./spread.ts";
import { isStraight, type Push, sigmaOf, type Tolerances } from "./tolerance.ts";

/** Share of live readings that are taken after the machine has timed out, where that changes anything (from memory). */
const AFTER_TIME_OUT = 0.3;

/** A spread that no meter's last digit shows is not worth a bend: volts, amperes, watts (from memory). */
const SHOWN: Readonly<Record<LiveAsk["what"], number>> = { volts: 0.02, amps: 0.005, watts: 0.2, leakage: 5e-6 };
/** Points of the quadrature over one rated number that first order does not do for. */
const BENT_POINTS = 5;

type LiveState = ProbeState & { readonly kind: "live" };

/** A picture a reading may be taken in, and its share. */
interface Shot {
  readonly weight: number;
  readonly key: string;
  readonly picture: Picture;
}

/** What probes show on one machine under power. */
export class LiveTerms {
  readonly #machine: Machine;
  readonly #tolerances: Tolerances;
  readonly #reader: LiveReader;
  readonly #nodes: ReadonlyMap<string, number>;
  readonly #runs = new FaultMap<Run>();
  readonly #commanded = new Map<number, FaultMap<Run>>();
  readonly #goods = new Map<string, number>();
  readonly #taken = new Map<string, FaultMap<readonly Shot[]>>();
  readonly #halfSteps = new Map<number, LiveTerms>();
  readonly #over = new Map<number, readonly { readonly weight: number; readonly live: LiveTerms }[]>();
  #opened: Runner | undefined;
  #restored: { readonly effects: readonly Effect[]; readonly member: Member; readonly solved: Solved } | undefined;

  constructor(machine: Machine, tolerances: Tolerances, nodes: ReadonlyMap<string, number>, runner?: Runner) {
    this.#opened = runner;
    this.#machine = machine;
    this.#tolerances = tolerances;
    this.#reader = new LiveReader(machine, tolerances);
    this.#nodes = nodes;
  }

  /** The machine with a fault, through its whole programme. */
  runOf(fault: Fault): Run {
    if (fault.length === 0) return this.#runner.healthy;
    let run = this.#runs.get(fault);
    if (run === undefined) {
      run = this.#runner.run(effectsOf(fault));
      this.#runs.set(fault, run);
    }
    return run;
  }

  /** One member of a picture, solved again; good until the next call. `key`: its picture's, for formulas "of good". */
  solved(fault: readonly Effect[], member: Member, key?: string): Solved {
    const last = this.#restored;
    if (last?.member === member && last.solved.isGood && sameEffects(last.effects, fault)) return last.solved;
    const solved = this.#runner.restore(fault, member, key);
    this.#restored = { effects: fault, member, solved };
    return solved;
  }

  /** The terms of a prediction; undefined when the fault leaves the reading as on a good machine. */
  of(probe: Probe, state: LiveState, inputOhms: number, fault: Fault): readonly PredictedTerm[] | undefined {
    const ask = this.#ask(probe, inputOhms);
    const shots = this.#shots(state, fault);
    if (fault.length > 0) {
      const value = this.#steady(effectsOf(fault), shots, ask);
      if (value !== undefined && alike(value, this.#good(probe, state, ask))) return undefined;
    }
    return shots.flatMap((shot) =>
      shot.picture.members.flatMap((member) =>
        this.#memberTerms(ask, fault, member, shot.key).map((term) => ({
          ...term,
          weight: term.weight * shot.weight * member.weight,
        })),
      ),
    );
  }

  /** The reading at the strength as written, in the likeliest member. */
  value(probe: Probe, state: LiveState, inputOhms: number, fault: Fault): number {
    return this.#reader.value(this.#likeliest(state, fault), this.#ask(probe, inputOhms));
  }

  /** The same, spread by tolerances alone. */
  asWritten(probe: Probe, state: LiveState, inputOhms: number, fault: Fault): PredictedTerm {
    const { value, pushes } = this.#reader.read(this.#likeliest(state, fault), this.#ask(probe, inputOhms));
    return { kind: "value", weight: 1, mean: value, sigma: sigmaOf(pushes) };
  }

  #likeliest(state: LiveState, fault: Fault): Solved {
    const [{ picture, key }] = this.#shots(state, fault);
    const member = picture.members.reduce((longest, one) => (one.weight > longest.weight ? one : longest));
    return this.solved(effectsOf(fault), member, key);
  }

  /** The same machine with its rated numbers drawn as given. */
  drawn(parameters: readonly number[]): LiveTerms {
    return new LiveTerms(this.#machine, this.#tolerances, this.#nodes, this.#runner.drawn(parameters));
  }

  hasOutput(command: string): boolean {
    return this.#output(command) >= 0;
  }

  #memberTerms(ask: LiveAsk, fault: Fault, member: Member, key: string): readonly PredictedTerm[] {
    const strengths = strengthsOf(fault);
    const values = strengths.map(({ effects }) => this.#reader.value(this.solved(effects, member, key), ask));
    const middle = strengths.findIndex(({ logRatio }) => logRatio === 0);
    const { pushes } = this.#reader.read(this.solved(strengths[middle].effects, member, key), ask);
    const pair = strongerOf(fault).map((stronger) =>
      strongerSigma(this.#reader.value(this.solved(stronger, member, key), ask), values[middle]),
    );
    const bent = this.#bent(ask, strengths[middle].effects, member, pushes, values[middle]);
    const straight = pushes.filter(({ parameter }) => parameter !== bent);
    const share = sigmaOf(straight) / (Math.abs(values[middle]) || 1);
    return strengths.flatMap(({ weight, effects }, s): readonly PredictedTerm[] => {
      const mean = values[s];
      const sigma = Math.hypot(share * mean, strengthSigma(values, s), ...pair);
      if (bent === undefined) return [{ kind: "value", weight, mean, sigma }];
      const points = this.#pointsOver(bent).map((point) => ({
        weight: point.weight,
        value: this.#reader.value(point.live.solved(effects, member), ask),
      }));
      return spreadOver(points, weight, mean, sigma);
    });
  }

  /**
   * The rated number that first order does not do for: wide, or narrow where half a step shows a bend (volts that nearly
   * cancel). The states stay as they are.
   */
  #bent(
    ask: LiveAsk,
    effects: readonly Effect[],
    member: Member,
    pushes: readonly Push[],
    value: number,
  ): number | undefined {
    const steep = this.#tolerances.steepest(pushes, value);
    if (steep === undefined || Math.abs(steep.shift) < SHOWN[ask.what]) return undefined;
    const wide = this.#tolerances.widest(pushes, value);
    if (wide !== undefined) return wide;
    const half = this.#reader.value(this.#halfStep(steep.parameter).solved(effects, member), ask);
    return isStraight(value, half, steep) ? undefined : steep.parameter;
  }

  #halfStep(parameter: number): LiveTerms {
    let live = this.#halfSteps.get(parameter);
    if (live === undefined) {
      live = this.#with(parameter, this.#tolerances.halfStep(parameter));
      this.#halfSteps.set(parameter, live);
    }
    return live;
  }

  #pointsOver(parameter: number): readonly { readonly weight: number; readonly live: LiveTerms }[] {
    let points = this.#over.get(parameter);
    if (points === undefined) {
      const rule = quadrature(this.#machine.parameters[parameter].rated, BENT_POINTS);
      points = rule.points.map((x, i) => ({ weight: rule.weights[i], live: this.#with(parameter, x) }));
      this.#over.set(parameter, points);
    }
    return points;
  }

  #with(parameter: number, x: number): LiveTerms {
    return this.drawn(this.#machine.parameters.map(({ rated }, p) => (p === parameter ? x : rated.nominal)));
  }

  /** The reading of a machine that stands still in one picture; undefined when it does not. */
  #steady(effects: readonly Effect[], shots: readonly Shot[], ask: LiveAsk): number | undefined {
    const [{ picture, key }] = shots;
    if (shots.length > 1 || picture.members.length > 1) return undefined;
    return this.#reader.value(this.solved(effects, picture.members[0], key), ask);
  }

  /** The steady reading of the good machine; NaN, like nothing, when it has none. */
  #good(probe: Probe, state: LiveState, ask: LiveAsk): number {
    const key = ask.what === "volts" ? `${probe.id} ${ask.inputOhms}` : probe.id;
    let value = this.#goods.get(key);
    if (value === undefined) {
      value = this.#steady([], this.#shots(state, []), ask) ?? Number.NaN;
      this.#goods.set(key, value);
    }
    return value;
  }

  get #runner(): Runner {
    this.#opened ??= openRunner(this.#machine);
    return this.#opened;
  }

  /** The pictures a reading may be taken in: minutes into the step, and after a time-out where that differs. */
  #shots(state: LiveState, fault: Fault): readonly Shot[] {
    const key = stateName(state);
    let taken = this.#taken.get(key);
    if (taken === undefined) {
      taken = new FaultMap();
      this.#taken.set(key, taken);
    }
    let shots = taken.get(fault);
    if (shots === undefined) {
      shots = this.#shotsAnew(state, fault);
      taken.set(fault, shots);
    }
    return shots;
  }

  #shotsAnew(state: LiveState, fault: Fault): readonly Shot[] {
    const output = state.command === undefined ? -1 : this.#output(state.command);
    const run = output < 0 ? this.runOf(fault) : this.#commandedRun(output, fault);
    const step = output < 0 ? (state.condition ?? state.step ?? "") : `command ${state.command}`;
    const steady = run.pictures.get(`${step}@minutes`) ?? run.pictures.get(step);
    const end = run.pictures.get(`${step}@end`);
    if (steady === undefined) throw new RangeError(`predict: no step or condition ${step} on ${this.#machine.title}`);
    if (end === undefined || sameMembers(steady, end)) return [{ weight: 1, key: `${step}@minutes`, picture: steady }];
    return [
      { weight: 1 - AFTER_TIME_OUT, key: `${step}@minutes`, picture: steady },
      { weight: AFTER_TIME_OUT, key: `${step}@end`, picture: end },
    ];
  }

  #commandedRun(output: number, fault: Fault): Run {
    let runs = this.#commanded.get(output);
    if (runs === undefined) {
      runs = new FaultMap();
      this.#commanded.set(output, runs);
    }
    let run = runs.get(fault);
    if (run === undefined) {
      run = this.#runner.commanded(effectsOf(fault), output);
      runs.set(fault, run);
    }
    return run;
  }

  #output(command: string): number {
    return this.#machine.serviceOutputs.find((output) => this.#machine.variables[output].id === command) ?? -1;
  }

  #ask({ quantity, from, to }: Probe, inputOhms: number): LiveAsk {
    switch (quantity) {
      case "volts":
      case "volts dc":
        return {
          what: "volts",
          kind: quantity === "volts" ? "~" : "=",
          from: this.#node(from),
          to: this.#node(to),
          inputOhms,
        };
      case "amps":
      case "watts":
        return { what: quantity };
      case "leakage amps":
        return { what: "leakage" };
      default:
        throw new RangeError(`predict: ${quantity} cannot be read on a live machine`);
    }
  }

  #node(point: string | undefined): number {
    const node = this.#nodes.get(point ?? "");
    if (node === undefined) throw new RangeError(`predict: no point ${point ?? "(none)"} on ${this.#machine.title}`);
    return node;
  }
}

function sameEffects(a: readonly Effect[], b: readonly Effect[]): boolean {
  return a === b || (a.length === b.length && a.every((effect, i) => effect === b[i]));
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
