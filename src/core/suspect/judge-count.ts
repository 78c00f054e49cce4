import { binomialLogPmf } from "../chance/index.ts";
import type { Prediction, Probe } from "../predict/index.ts";
import type { Foresight } from "./foresight.ts";
import type { Judge } from "./hypothesis-chance.ts";
import { readingJudge, SLIP, unknowable } from "./judge-reading.ts";

/** Chance that one operation of a good part reads bad, and of a bad part good, by the hand that does it (from memory). */
const MISREAD = 0.01;
/** Input impedance of a common digital meter (common practice, no source). */
const METER_OHMS = 1e7;

/** Chances of 0, 1 ... n good operations of n. An intermittent fault is on a share of them: a binomial. */
export function judgeCount(foresight: Foresight, probe: Probe, of: number): Judge<Prediction> {
  const even = new Float64Array(of + 1).fill(1 / (of + 1));
  if (!foresight.has(probe)) return unknowable(even);
  const good = foresight.shows(probe, METER_OHMS, []);
  const tally = (chanceGood: number): Float64Array =>
    even.map((slipped, k) => (1 - SLIP) * Math.exp(binomialLogPmf(k, of, clamp(chanceGood))) + SLIP * slipped);
  return {
    ...readingJudge(foresight, probe, METER_OHMS),
    chances: (prediction) => tally(likeGood(prediction, good)),
    comesAndGoes: (failsOn, present, healthy) =>
      tally(failsOn * likeGood(present, good) + (1 - failsOn) * likeGood(healthy, good)),
    anything: even,
  };
}

function clamp(chance: number): number {
  return Math.min(1 - MISREAD, Math.max(MISREAD, chance));
}

/** Share of a prediction that a person would take for the good reading: within three sigmas, or a tenth. */
function likeGood(prediction: Prediction, good: Prediction): number {
  let share = 0;
  for (const term of prediction.terms) {
    const alike = good.terms.some((other) =>
      term.kind === "open" || other.kind === "open"
        ? term.kind === other.kind
        : Math.abs(term.mean - other.mean) <= Math.max(3 * other.sigma, 0.1 * Math.abs(other.mean), 1e-9),
    );
    if (alike) share += term.weight;
  }
  return share;
}
