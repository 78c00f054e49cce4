import { quadrature } from "../chance/index.ts";
import type { Ohmmeter } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import { DeadBench, type DeadState } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Push, Tolerances } from "./tolerance.ts";

/** A reading without power: ohms or farads, Infinity ohms where no path is, and what spreads it. */
export interface DeadReading {
  readonly value: number;
  readonly pushes: readonly Push[];
}

export interface DeadAsk {
  readonly state: DeadState;
  readonly farads: boolean;
  readonly from: number;
  readonly to: number;
}

/** Fewer ohms than these join two points for a capacitance meter; more do not disturb it (from memory). */
const FARAD_SHORT_OHMS = 1e4;
/** Points of the quadrature over one rated number that is wide beyond first order. */
const WIDE_POINTS = 5;

/** A fault at three strengths and as written. */
const KEPT = 4;

/** Reads one machine with the plug out. */
export class DeadReader {
  readonly #machine: Machine;
  readonly #bench: DeadBench;
  readonly #tolerances: Tolerances;
  /** What was prepared last, latest at the end. */
  readonly #prepared: { readonly effects: readonly Effect[]; readonly state: DeadState; readonly meter: Ohmmeter }[] =
    [];
  readonly #drawn = new Map<string, { weight: number; bench: DeadBench }[]>();

  constructor(machine: Machine, tolerances: Tolerances) {
    this.#machine = machine;
    this.#bench = new DeadBench(machine);
    this.#tolerances = tolerances;
  }

  /** The reading with these effects, every rated number at its middle. */
  read(effects: readonly Effect[], ask: DeadAsk): DeadReading {
    return ask.farads ? this.#farads(effects, ask) : this.#ohms(this.#prepare(effects, ask.state), ask);
  }

  /** The reading alone, without what spreads it. */
  value(effects: readonly Effect[], ask: DeadAsk): number {
    if (ask.farads) return this.#farads(effects, ask).value;
    return this.#prepare(effects, ask.state).ohms(ask.from, ask.to);
  }

  /** Ohms between many pairs of nodes at once. */
  values(
    effects: readonly Effect[],
    state: DeadState,
    pairs: readonly { readonly from: number; readonly to: number }[],
  ): Float64Array {
    const meter = this.#prepare(effects, state);
    return Float64Array.from(pairs, ({ from, to }) => meter.ohms(from, to));
  }

  /** Readings over the range of one rated number, by weight. */
  over(parameter: number, effects: readonly Effect[], ask: DeadAsk): readonly { weight: number; value: number }[] {
    const key = String(parameter);
    let benches = this.#drawn.get(key);
    if (benches === undefined) {
      const { rated } = this.#machine.parameters[parameter];
      const rule = quadrature(rated, WIDE_POINTS);
      benches = rule.points.map((point, i) => {
        const drawn = this.#machine.parameters.map((other, p) => (p === parameter ? point : other.rated.nominal));
        return { weight: rule.weights[i], bench: this.#bench.drawn(drawn) };
      });
      this.#drawn.set(key, benches);
    }
    return benches.map(({ weight, bench }) => ({
      weight,
      value: bench.prepare(effects, ask.state).ohms(ask.from, ask.to),
    }));
  }

  /** The machine as it is prepared for reading: the same fault in the same state, by identity, is at hand for a while. */
  #prepare(effects: readonly Effect[], state: DeadState): Ohmmeter {
    const at = this.#prepared.findIndex((one) => one.effects === effects && one.state === state);
    const [known] = at < 0 ? [] : this.#prepared.splice(at, 1);
    const spare = known !== undefined || this.#prepared.length < KEPT ? undefined : this.#prepared.shift();
    const meter = known?.meter ?? this.#bench.prepare(effects, state, spare?.meter ?? this.#bench.ohmmeter());
    this.#prepared.push({ effects, state, meter });
    return meter;
  }

  #ohms(meter: Ohmmeter, ask: DeadAsk): DeadReading {
    const value = meter.ohms(ask.from, ask.to);
    if (!Number.isFinite(value)) return { value, pushes: [] };
    const byOhms = meter.partials(ask.from, ask.to);
    return {
      value,
      pushes: this.#tolerances.pushes(byOhms, (element) => this.#stateNear(element, 1 / meter.g[element])),
    };
  }

  /** A capacitance meter sees capacitors through low ohms: their elastance is found as ohms are. */
  #farads(effects: readonly Effect[], ask: DeadAsk): DeadReading {
    const meter = this.#bench.prepare(effects, ask.state);
    for (const [element, { what, values }] of this.#machine.elements.entries()) {
      if (what === "C") meter.g[element] = faradsUnder(effects, element, values[0].nominal);
      else meter.g[element] = meter.g[element] * FARAD_SHORT_OHMS > 1 ? Number.POSITIVE_INFINITY : 0;
    }
    meter.solve();
    const elastance = meter.ohms(ask.from, ask.to);
    if (elastance === 0) return { value: Number.POSITIVE_INFINITY, pushes: [] };
    const farads = 1 / elastance;
    const byFarads = meter
      .partials(ask.from, ask.to)
      .map((slope, element) => (slope === 0 ? 0 : slope * (farads / meter.g[element]) ** 2));
    return { value: farads, pushes: this.#tolerances.pushes(byFarads, () => 0) };
  }

  /** Which of an element's values it has now: the nearest to its ohms. */
  #stateNear(element: number, ohms: number): number {
    const { values } = this.#machine.elements[element];
    if (values.length === 1) return 0;
    let best = 0;
    for (const [state, value] of values.entries()) {
      if (Math.abs(value.nominal - ohms) < Math.abs(values[best].nominal - ohms)) best = state;
    }
    return best;
  }
}

function faradsUnder(effects: readonly Effect[], element: number, nominal: number): number {
  let farads = nominal;
  for (const effect of effects) {
    if (!("element" in effect) || effect.element !== element) continue;
    if (effect.does === "open") farads = 0;
    if (effect.does === "short") farads = Number.POSITIVE_INFINITY;
    if (effect.does === "factor") farads *= effect.by;
  }
  return farads;
}
