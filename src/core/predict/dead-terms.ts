import type { DeadState } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import { effectsOf, type Fault, FaultMap } from "./atom.ts";
import { type DeadAsk, DeadReader } from "./dead-reading.ts";
import type { PredictedTerm, Probe } from "./prediction.ts";
import { stateName } from "./probe.ts";
import { strengthsOf, strongerOf } from "./severity.ts";
import { alike, spreadOver, strengthSigma, strongerSigma } from "./spread.ts";
import { sigmaOf, type Tolerances } from "./tolerance.ts";
import { usualProbes } from "./usual-probes.ts";

/** Insulation is known to a factor, not to per cents (from memory). */
const INSULATION_SPREAD = 0.3;

/** Ohms between all pairs of points that are usually asked for in one dead state, fault by fault as they are needed. */
interface Sheetful {
  readonly state: DeadState;
  readonly pairs: { readonly from: number; readonly to: number }[];
  readonly rows: FaultMap<Float64Array>;
}

/** A probe looked up once: what is asked of the circuit, and where its readings stand. */
interface Prepared {
  readonly quantity: Probe["quantity"];
  readonly ask: DeadAsk;
  readonly sheet: Sheetful;
  readonly at: number;
}

/** What probes show on one machine with the plug out. */
export class DeadTerms {
  readonly #machine: Machine;
  readonly #tolerances: Tolerances;
  readonly #reader: DeadReader;
  readonly #nodes: ReadonlyMap<string, number>;
  readonly #sheets = new Map<string, Sheetful>();
  readonly #prepared = new Map<string, Prepared>();
  #usual: readonly Probe[] | undefined;

  constructor(machine: Machine, tolerances: Tolerances, nodes: ReadonlyMap<string, number>) {
    this.#machine = machine;
    this.#tolerances = tolerances;
    this.#nodes = nodes;
    this.#reader = new DeadReader(machine, tolerances);
  }

  /** The terms of a prediction; undefined when the fault leaves the reading as on a good machine. */
  of(probe: Probe, fault: Fault): readonly PredictedTerm[] | undefined {
    const prepared = this.#prepare(probe);
    const { ask } = prepared;
    const value = this.#value(prepared, fault);
    if (fault.length > 0 && alike(value, this.#value(prepared, []))) return undefined;
    const strengths = strengthsOf(fault);
    const values = strengths.map(({ effects, logRatio }) =>
      logRatio === 0 ? value : this.#reader.value(effects, ask),
    );
    if (!values.some(Number.isFinite)) return [{ kind: "open", weight: 1 }];
    const own = Number.isFinite(value) ? this.#ownSpread(prepared, fault, value) : { sigma: 0 };
    return strengths.flatMap(({ weight, effects }, s): readonly PredictedTerm[] => {
      const mean = values[s];
      if (!Number.isFinite(mean)) return [{ kind: "open", weight }];
      // What the strength adds in series adds no tolerance; what it takes away takes its share.
      const sigma = Math.hypot(own.sigma * Math.min(1, mean / (value || 1)), strengthSigma(values, s));
      if (own.parameter === undefined) return [{ kind: "value", weight, mean, sigma }];
      return spreadOver(this.#reader.over(own.parameter, effects, ask), weight, mean, sigma);
    });
  }

  /** The reading at the strength as written, Infinity where no path is. */
  value(probe: Probe, fault: Fault): number {
    return this.#value(this.#prepare(probe), fault);
  }

  /** The reading at the strength as written, spread by tolerances alone. */
  asWritten(probe: Probe, fault: Fault): PredictedTerm {
    const prepared = this.#prepare(probe);
    const mean = this.#value(prepared, fault);
    if (!Number.isFinite(mean)) return { kind: "open", weight: 1 };
    const { pushes } = this.#reader.read(effectsOf(fault), prepared.ask);
    return { kind: "value", weight: 1, mean, sigma: sigmaOf(pushes) };
  }

  /** Spread by tolerances, at the strength as written; and the rated number that is too wide for first order, if any. */
  #ownSpread({ quantity, ask }: Prepared, fault: Fault, value: number): { sigma: number; parameter?: number } {
    const { pushes } = this.#reader.read(effectsOf(fault), ask);
    const parameter = fault.length > 1 || ask.farads ? undefined : this.#tolerances.widest(pushes, value);
    const sigma = Math.hypot(
      sigmaOf(pushes.filter((push) => push.parameter !== parameter)),
      ...strongerOf(fault).map((stronger) => strongerSigma(this.#reader.value(stronger, ask), value)),
      quantity === "insulation ohms" ? INSULATION_SPREAD * value : 0,
    );
    return parameter === undefined ? { sigma } : { sigma, parameter };
  }

  /** A reading as written; of ohms, all usual pairs of the same state are read at once, since solving costs most. */
  #value({ ask, sheet, at }: Prepared, fault: Fault): number {
    if (ask.farads) return this.#reader.value(effectsOf(fault), ask);
    let row = sheet.rows.get(fault);
    if (row === undefined || at >= row.length) {
      row = this.#reader.values(effectsOf(fault), ask.state, sheet.pairs);
      sheet.rows.set(fault, row);
    }
    return row[at];
  }

  #prepare(probe: Probe): Prepared {
    let prepared = this.#prepared.get(probe.id);
    if (prepared === undefined) {
      const ask = this.#ask(probe);
      const sheet = this.#sheet(probe, ask);
      let at = sheet.pairs.findIndex(({ from, to }) => from === ask.from && to === ask.to);
      if (at < 0) at = sheet.pairs.push({ from: ask.from, to: ask.to }) - 1;
      prepared = { quantity: probe.quantity, ask: { ...ask, state: sheet.state }, sheet, at };
      this.#prepared.set(probe.id, prepared);
    }
    return prepared;
  }

  #sheet(probe: Probe, { state }: DeadAsk): Sheetful {
    const key = `${stateName(probe.state)} ${(state.freed ?? []).join()} ${(state.joined ?? []).join()}`;
    let sheet = this.#sheets.get(key);
    if (sheet === undefined) {
      sheet = { state, pairs: this.#usualPairs(state), rows: new FaultMap() };
      this.#sheets.set(key, sheet);
    }
    return sheet;
  }

  #usualPairs(state: DeadState): { from: number; to: number }[] {
    this.#usual ??= usualProbes(this.#machine).map(({ probe }) => probe);
    const pulled = [...state.pulled].sort().join();
    return this.#usual.flatMap((probe) => {
      const { state: own, from, to, quantity } = probe;
      if (quantity !== "ohms" || own.kind !== "dead" || from === undefined || to === undefined) return [];
      if ([...own.pulled].sort().join() !== pulled) return [];
      return [{ from: this.#node(from), to: this.#node(to) }];
    });
  }

  #ask(probe: Probe): DeadAsk {
    const { state, from, joinedWith } = probe;
    const part = state.kind === "bench" ? this.#partAt(from) : undefined;
    const loose: DeadState = { pulled: [], freed: part === undefined ? [] : [part], hands: new Map() };
    const joined = from === undefined || joinedWith === undefined ? [] : [from, ...joinedWith];
    return {
      state: { ...(state.kind === "dead" ? state : loose), joined },
      farads: probe.quantity === "farads",
      from: this.#node(from),
      to: this.#node(probe.to),
    };
  }

  /** A point is named after its part: `heater.s1`. */
  #partAt(point: string | undefined): string | undefined {
    return this.#machine.parts.find(({ id }) => point?.startsWith(`${id}.`))?.id;
  }

  #node(point: string | undefined): number {
    const node = this.#nodes.get(point ?? "");
    if (node === undefined) throw new RangeError(`predict: no point ${point ?? "(none)"} on ${this.#machine.title}`);
    return node;
  }
}
