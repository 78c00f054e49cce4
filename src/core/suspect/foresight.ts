import type { Mode } from "../fault/index.ts";
import type { Atom, Fault, Prediction, Probe } from "../predict/index.ts";
import type { Machine, SignRule } from "../sheet/index.ts";

/** All that one candidate machine would show; made on demand, kept by whoever implements it. */
export interface Foresight {
  readonly machine: Machine;
  readonly modes: readonly Mode[];
  readonly atoms: readonly Atom[];
  /** Chance of each true answer to a sign, in the order of its answers. */
  answers(sign: SignRule, fault: Fault): ArrayLike<number>;
  /** Outputs that the control drives in a step, by id. */
  commands(step: string, fault: Fault): ReadonlySet<string>;
  /** Has it the points, the step or the cause that the probe is about? If not, nothing can be foreseen of it. */
  has(probe: Probe): boolean;
  /** What a display would show, on a meter of this input impedance. */
  shows(probe: Probe, inputOhms: number, fault: Fault): Prediction;
  /** Is a pair of faults cheap to foresee here (no programme to run)? */
  isQuick(probe: Probe): boolean;
}
