import { type Circuit, compile, type Guard, type Ohmmeter, type Solver } from "../../src/core/circuit/index.ts";

/** A small circuit by values, for tests: `[a, b, "R", 10]`; infinite ohms are a true open, 0 ohms a dead short. */
export type TestElement = readonly [a: number, b: number, kind: "R" | "C" | "L" | "V", value: number];

export const fiftyHertz = 2 * Math.PI * 50;

export interface TestNetwork {
  readonly circuit: Circuit;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly emf: Float64Array;
  ac(guard?: Guard): Solver;
  dc(guard?: Guard): Solver;
  ohmmeter(): Ohmmeter;
}

/** Admittance of an element at `omega`; 0 is DC. Capacitors are then open, inductors shorts. */
export function admittance([, , kind, value]: TestElement, omega: number): { re: number; im: number } {
  if (kind === "R") return { re: 1 / value, im: 0 };
  if (kind === "C") return { re: 0, im: omega * value };
  if (kind === "L") return omega === 0 ? { re: Number.POSITIVE_INFINITY, im: 0 } : { re: 0, im: -1 / (omega * value) };
  return { re: 0, im: 0 };
}

/** Compiles a list of elements; solvers come filled and solved. */
export function network(elements: readonly TestElement[], omega = fiftyHertz): TestNetwork {
  const nodes = 1 + Math.max(...elements.map(([a, b]) => Math.max(a, b)));
  const sources = [...elements.keys()].filter((e) => elements[e][2] === "V");
  const circuit = compile({ nodes, elements: elements.map(([a, b]) => ({ a, b })), sources });
  const re = Float64Array.from(elements, (element) => admittance(element, omega).re);
  const im = Float64Array.from(elements, (element) => admittance(element, omega).im);
  const emf = Float64Array.from(sources, (e) => elements[e][3]);
  const filled = (solver: Solver, at: number): Solver => {
    solver.re.set(elements.map((element) => admittance(element, at).re));
    solver.im.set(elements.map((element) => admittance(element, at).im));
    solver.emfRe.set(emf);
    solver.solve();
    return solver;
  };
  return {
    circuit,
    re,
    im,
    emf,
    ac: (guard) => filled(circuit.ac(guard), omega),
    dc: (guard) => filled(circuit.dc(guard), 0),
    ohmmeter: () => {
      const meter = circuit.ohmmeter();
      meter.g.set(elements.map((element) => admittance(element, 0).re));
      meter.solve();
      return meter;
    },
  };
}
