import type { Meter } from "../../core/meter/index.ts";
import { instrumentFor } from "../../core/plan/index.ts";
import {
  handheldProbes,
  type Predictor,
  probeTests,
  type Regime,
  testability,
  usualProbes,
} from "../../core/predict/index.ts";
import { foreseeing, signTests } from "../../core/suspect/index.ts";

/** How near to danger one goes, in plain words. */
const regimes: readonly (readonly [Regime, string])[] = [
  ["in full", "everything may be measured"],
  ["never live by hand", "no probe held on live parts"],
  ["nothing opened", "nothing opened"],
];

/** Of 100 faults as often as they happen: how many show at all, and how far those can be narrowed down. */
export interface TestabilityRow {
  readonly says: string;
  /** Shares, 0 to 1: show at all; of those, down to one thing, to one or two, to one, two or three. */
  readonly shows: number;
  readonly downTo: readonly number[];
  /** Things left on average. */
  readonly left: number;
}

/** How much of what can fail is noticed at all, and how far it can be told apart, by how near to danger one goes. */
export function testabilityRows(predictor: Predictor, meters: ReadonlyMap<string, Meter>): TestabilityRow[] {
  const { machine } = predictor;
  const tests = [
    ...probeTests(predictor, [...usualProbes(machine), ...handheldProbes(machine)], (quantity) =>
      instrumentFor(quantity, [], meters),
    ),
    ...signTests(foreseeing(machine, predictor)),
  ];
  return regimes.map(([regime, says]) => {
    const { detectedByShare, isolatedTo, meanGroup } = testability(predictor.atoms, tests, regime);
    return { says, shows: detectedByShare, downTo: isolatedTo, left: meanGroup };
  });
}
