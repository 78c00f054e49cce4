import type { Meter } from "../../core/meter/index.ts";
import { type Pieces, toItsEnd } from "../../core/pace/index.ts";
import { instrumentFor } from "../../core/plan/index.ts";
import {
  handheldProbes,
  type Predictor,
  probing,
  type Regime,
  tellingApart,
  usualProbes,
} from "../../core/predict/index.ts";
import { askingSigns, foreseeing } from "../../core/suspect/index.ts";

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
  return toItsEnd(testabilityInPieces(predictor, meters));
}

/** The same in pieces. */
export function* testabilityInPieces(
  predictor: Predictor,
  meters: ReadonlyMap<string, Meter>,
): Pieces<TestabilityRow[]> {
  const { machine } = predictor;
  const probes = [...usualProbes(machine), ...handheldProbes(machine)];
  const read = yield* probing(predictor, probes, (quantity) => instrumentFor(quantity, [], meters));
  const noticed = yield* askingSigns(foreseeing(machine, predictor));
  const rows: TestabilityRow[] = [];
  for (const [regime, says] of regimes) {
    const found = yield* tellingApart(predictor.atoms, [...read, ...noticed], regime);
    rows.push({ says, shows: found.detectedByShare, downTo: found.isolatedTo, left: found.meanGroup });
  }
  return rows;
}
