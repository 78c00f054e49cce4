import { type Rated, standardUncertainty } from "../quantity/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Fault } from "./atom.ts";
import type { PredictedTerm, Probe } from "./prediction.ts";

/** A measurement of a cause: what a machine with that cause shows, or a good one. */
export function measuredOf(
  machine: Machine,
  what: NonNullable<Probe["measure"]>,
  fault: Fault,
): readonly PredictedTerm[] {
  const cause = machine.causes.findIndex(({ id }) => id === what.cause);
  const measure = machine.causes[cause]?.measures.find(({ id }) => id === what.id);
  if (measure === undefined) throw new RangeError(`predict: no measurement ${what.id} of ${what.cause}`);
  const present = fault.some(({ mode }) => mode.cause === cause);
  return [termOf(present ? measure.bad : measure.good)];
}

/** What is given as a band is where nearly all machines lie: its middle, and its ends at two standard deviations. */
function termOf(rated: Rated): PredictedTerm {
  const { lo, hi, nominal } = rated;
  const band = lo < hi;
  return {
    kind: "value",
    weight: 1,
    mean: band ? (lo + hi) / 2 : nominal,
    sigma: band ? (hi - lo) / 4 : standardUncertainty(rated),
  };
}
