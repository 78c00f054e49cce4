import { Predictor, probeOf } from "../predict/index.ts";
import type { Limits, Rated } from "../quantity/index.ts";
import type { Machine } from "../sheet/index.ts";
import { type Load, loadOf } from "./load.ts";

/** What a good machine draws at the plug in one step of its programme. */
export interface ExpectedStep {
  readonly step: string;
  /** Watts at the sheet's own volts: the middle, and the reach of its ratings (19 times in 20). */
  readonly watts: number;
  readonly reach: Limits;
  readonly load: Load;
}

/** No meter is in circuit: watts are read at the plug. */
const NO_METER = Number.POSITIVE_INFINITY;

/** Step by step, what the sheet's circuit says a good machine draws, the mains held at its rated volts. */
export function expectedSteps(machine: Machine): readonly ExpectedStep[] {
  const predictor = new Predictor(withSteadyMains(machine), []);
  return machine.steps.map(({ id: step }) => {
    const probe = probeOf({ quantity: "watts", state: { kind: "live", step } });
    const terms = predictor.shows(probe, NO_METER, []).terms.flatMap((term) => (term.kind === "value" ? [term] : []));
    const weight = terms.reduce((sum, term) => sum + term.weight, 0);
    const watts = weight === 0 ? 0 : terms.reduce((sum, term) => sum + term.weight * term.mean, 0) / weight;
    return {
      step,
      watts,
      reach: {
        lo: Math.max(0, Math.min(...terms.map(({ mean, sigma }) => mean - 2 * sigma))),
        hi: Math.max(...terms.map(({ mean, sigma }) => mean + 2 * sigma)),
      },
      load: loadOf(watts),
    };
  });
}

/** The mains' own spread is told apart: by the volts that were logged, or by the band of the public supply. */
function withSteadyMains(machine: Machine): Machine {
  const ofMains = new Set(
    machine.mains.flatMap((element) =>
      machine.elements[element].values.flatMap(({ slopes }) => slopes.map(({ parameter }) => parameter)),
    ),
  );
  const steady = (rated: Rated): Rated => ({ ...rated, lo: rated.nominal, hi: rated.nominal, spread: "exact" });
  return {
    ...machine,
    parameters: machine.parameters.map((parameter, at) =>
      ofMains.has(at) ? { ...parameter, rated: steady(parameter.rated) } : parameter,
    ),
  };
}
