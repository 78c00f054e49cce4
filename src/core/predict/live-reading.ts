import type { Solver } from "../circuit/index.ts";
import { isSource, type Solved } from "../run/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Push, Tolerances } from "./tolerance.ts";

/** A reading under power in one solved moment, and what spreads it. */
export interface LiveReading {
  readonly value: number;
  readonly pushes: readonly Push[];
}

export type LiveAsk =
  | {
      readonly what: "volts";
      readonly kind: "~" | "=";
      readonly from: number;
      readonly to: number;
      readonly inputOhms: number;
    }
  | { readonly what: "amps" | "watts" | "leakage" };

interface Phasor {
  readonly re: number;
  readonly im: number;
}

/** A phasor for each source. */
interface Parts {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** A phasor and its derivatives by the admittance of every element. */
interface Slopes {
  readonly value: Phasor;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Reads solved moments of one machine. */
export class LiveReader {
  readonly #machine: Machine;
  readonly #tolerances: Tolerances;
  /** Elements that are sources, in the order of the solvers' `emfRe`. */
  readonly #sources: readonly number[];

  constructor(machine: Machine, tolerances: Tolerances) {
    this.#machine = machine;
    this.#tolerances = tolerances;
    this.#sources = sourcesOf(machine);
  }

  value(solved: Solved, ask: LiveAsk): number {
    switch (ask.what) {
      case "volts":
        return solved.metered(ask.from, ask.to, ask.inputOhms, ask.kind).volts;
      case "amps":
        return Math.max(0, ...solved.atPlug().map((core) => core.amps));
      case "watts":
        return solved.plugWatts();
      case "leakage":
        return solved.leakageAmps();
    }
  }

  /** The reading, and its pushes to first order by the adjoint. */
  read(solved: Solved, ask: LiveAsk): LiveReading {
    const value = this.value(solved, ask);
    if (value === 0) return { value, pushes: [] };
    const solver = ask.what === "volts" && ask.kind === "=" ? solved.dc : solved.ac;
    const byAdmittance = this.#byAdmittance(solver, ask);
    const direct = ask.what === "volts" && ask.kind === "=";
    const byValue = this.#byValue(byAdmittance.re, byAdmittance.im, solver, direct);
    const scale = ask.what === "volts" ? value / Math.max(byAdmittance.size, Number.MIN_VALUE) : 1;
    for (let element = 0; element < byValue.length; element++) byValue[element] *= scale;
    this.#addSources(byValue, value, ask, solver);
    return { value, pushes: this.#tolerances.pushes(byValue, (element) => this.#stateOf(solved, element)) };
  }

  /** d(reading)/d(re y) and d(reading)/d(im y), both real. */
  #byAdmittance(solver: Solver, ask: LiveAsk): { size: number; re: Float64Array; im: Float64Array } {
    if (ask.what === "volts") {
      const slopes = voltSlopes(solver, ask.from, ask.to);
      const size = Math.hypot(slopes.value.re, slopes.value.im);
      return { size, ...along(slopes, { re: slopes.value.re / size, im: slopes.value.im / size }) };
    }
    const cores = this.#machine.plugElements.filter(({ line }) => line >= 0);
    if (ask.what === "watts") return this.#wattSlopes(solver, cores);
    const indices = ask.what === "amps" ? cores.slice(0, 1).map(({ line }) => line) : coresOf(cores);
    const slopes = indices.map((element) => this.#ampSlopes(solver, element)).reduce(plus);
    const size = Math.hypot(slopes.value.re, slopes.value.im);
    return { size, ...along(slopes, { re: slopes.value.re / size, im: slopes.value.im / size }) };
  }

  /** Watts of a core are Re(V · conj I); each factor moves in turn. */
  #wattSlopes(solver: Solver, cores: Machine["plugElements"]): { size: number; re: Float64Array; im: Float64Array } {
    const re = new Float64Array(solver.re.length);
    const im = new Float64Array(solver.re.length);
    for (const { line, neutral } of cores) {
      const from = this.#machine.elements[line];
      const back = neutral < 0 ? from.b : this.#machine.elements[neutral].a;
      const amps = this.#ampSlopes(solver, line);
      const volts = voltSlopes(solver, from.a, back);
      const sign = Math.sign(volts.value.re * amps.value.re + volts.value.im * amps.value.im);
      const byVolts = along(volts, amps.value);
      const byAmps = along(amps, volts.value);
      for (let e = 0; e < re.length; e++) {
        re[e] += sign * (byVolts.re[e] + byAmps.re[e]);
        im[e] += sign * (byVolts.im[e] + byAmps.im[e]);
      }
    }
    return { size: 1, re, im };
  }

  /** I = y · V of the element, so dI = y · dV, and V more for its own y. */
  #ampSlopes(solver: Solver, element: number): Slopes {
    const { a, b } = this.#machine.elements[element];
    const volts = voltSlopes(solver, a, b);
    const y = { re: solver.re[element], im: solver.im[element] };
    const re = volts.re.map((x, e) => x * y.re - volts.im[e] * y.im);
    const im = volts.re.map((x, e) => x * y.im + volts.im[e] * y.re);
    re[element] += volts.value.re;
    im[element] += volts.value.im;
    return { value: solver.amps(element), re, im };
  }

  /** From admittance to the number on the element: y = 1/z, so dy = −y² dz; z is R, jX, jωL or 1/(jωC). */
  #byValue(byRe: Float64Array, byIm: Float64Array, solver: Solver, direct: boolean): Float64Array {
    const omega = 2 * Math.PI * this.#machine.supply.hertz;
    return Float64Array.from(this.#machine.elements, ({ what }, e) => {
      const re = solver.re[e];
      const im = direct ? 0 : solver.im[e];
      if ((byRe[e] === 0 && byIm[e] === 0) || !Number.isFinite(re)) return 0;
      const square = { re: re * re - im * im, im: 2 * re * im };
      switch (what) {
        case "R":
        case "switch":
        case "leak":
          return -(byRe[e] * square.re + byIm[e] * square.im);
        case "X":
          return direct ? 0 : byRe[e] * square.im - byIm[e] * square.re;
        case "L":
          return direct ? 0 : omega * (byRe[e] * square.im - byIm[e] * square.re);
        case "C":
          return direct ? 0 : omega * byIm[e];
        default:
          return 0;
      }
    });
  }

  /** By the volts of each source: what it adds to the reading is its share of the whole, watts being of second degree. */
  #addSources(byValue: Float64Array, value: number, ask: LiveAsk, solver: Solver): void {
    const adds = this.#bySource(solver, ask);
    const whole = adds.reduce((sum, x) => sum + x, 0);
    if (whole === 0) return;
    const power = ask.what === "watts" ? 2 : 1;
    for (const [source, element] of this.#sources.entries()) {
      const volts = Math.hypot(solver.emfRe[source], solver.emfIm[source]);
      if (volts > 0) byValue[element] = (power * value * adds[source]) / whole / volts;
    }
  }

  /** What each source adds to the reading, all in one unit: its part along the phasor that is read. */
  #bySource(solver: Solver, ask: LiveAsk): Float64Array {
    if (ask.what === "volts") return partsAlong(solver.bySource(ask.from, ask.to), solver.volts(ask.from, ask.to));
    const cores = this.#machine.plugElements.filter(({ line }) => line >= 0);
    const adds = new Float64Array(this.#sources.length);
    const add = (more: Float64Array, sign = 1): void => {
      for (const [source, x] of more.entries()) adds[source] += sign * x;
    };
    if (ask.what === "watts") {
      for (const { line, neutral } of cores) {
        const from = this.#machine.elements[line];
        const back = neutral < 0 ? from.b : this.#machine.elements[neutral].a;
        const amps = solver.amps(line);
        const volts = solver.volts(from.a, back);
        const sign = Math.sign(volts.re * amps.re + volts.im * amps.im);
        add(partsAlong(solver.bySource(from.a, back), amps), sign);
        add(partsAlong(this.#ampsBySource(solver, line), volts), sign);
      }
      return adds;
    }
    const indices = ask.what === "amps" ? cores.slice(0, 1).map(({ line }) => line) : coresOf(cores);
    const flows = indices.map((element) => solver.amps(element));
    const whole = { re: sum(flows.map(({ re }) => re)), im: sum(flows.map(({ im }) => im)) };
    for (const element of indices) add(partsAlong(this.#ampsBySource(solver, element), whole));
    return adds;
  }

  #ampsBySource(solver: Solver, element: number): Parts {
    const { a, b } = this.#machine.elements[element];
    const volts = solver.bySource(a, b);
    const y = { re: solver.re[element], im: solver.im[element] };
    return {
      re: volts.re.map((x, s) => x * y.re - volts.im[s] * y.im),
      im: volts.re.map((x, s) => x * y.im + volts.im[s] * y.re),
    };
  }

  #stateOf(solved: Solved, element: number): number {
    const { set, values } = this.#machine.elements[element];
    return set < 0 || values.length === 1 ? 0 : solved.live.state(set);
  }
}

function sourcesOf(machine: Machine): number[] {
  return [...machine.elements.keys()].filter((element) => isSource(machine.elements[element].what));
}

/** The part of each of them in the direction of a phasor; its length is left in, since shares are asked for. */
function partsAlong(parts: Parts, direction: Phasor): Float64Array {
  return parts.re.map((x, s) => x * direction.re + parts.im[s] * direction.im);
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, x) => total + x, 0);
}

function coresOf(cores: Machine["plugElements"]): readonly number[] {
  return [...new Set(cores.flatMap(({ line, neutral }) => [line, neutral]).filter((core) => core >= 0))];
}

function voltSlopes(solver: Solver, a: number, b: number): Slopes {
  const { re, im } = solver.partials(a, b);
  return { value: solver.volts(a, b), re, im };
}

function plus(a: Slopes, b: Slopes): Slopes {
  return {
    value: { re: a.value.re + b.value.re, im: a.value.im + b.value.im },
    re: a.re.map((x, e) => x + b.re[e]),
    im: a.im.map((x, e) => x + b.im[e]),
  };
}

/** Derivative of Re(conj(direction) · phasor) by re y and by im y; d/d(im y) of an analytic function is j times d/dy. */
function along(slopes: Slopes, direction: Phasor): { re: Float64Array; im: Float64Array } {
  return {
    re: slopes.re.map((x, e) => direction.re * x + direction.im * slopes.im[e]),
    im: slopes.re.map((x, e) => direction.im * x - direction.re * slopes.im[e]),
  };
}
