import { logSumExp } from "../chance/index.ts";
import { unitOfQuantity } from "../meter/index.ts";
import type { Prediction } from "../predict/index.ts";
import { formatAmount } from "../quantity/index.ts";
import { type Observation, whichCount } from "../sign/index.ts";
import type { Belief, Case } from "./case.ts";

/** How one mode stands to one observation, so that a person can argue with it. */
export interface Argument {
  /** Index into the observations. */
  readonly observation: number;
  /** Overruled by a better witness, so that it does not count. */
  readonly overruled: boolean;
  /** What the display would show; absent for signs, looks and answers. */
  readonly prediction?: Prediction;
  /** "24 to 28 Ω", "mostly OL", "yes, 8 of 10". */
  readonly predicted: string;
  /** ln of how many times likelier the observation is under this mode than under all others together. */
  readonly weight: number;
}

export interface Explanation {
  readonly mode: string;
  readonly says: string;
  readonly p: number;
  readonly observations: readonly Argument[];
}

/**
 * Predicted against seen, for each of the likeliest modes and each observation, and how much each observation spoke for
 * the mode.
 *
 * @param belief `known.update(observations)`
 */
export function explain(
  known: Case,
  observations: readonly Observation[],
  belief: Belief,
  options: { readonly modesAtMost?: number } = {},
): readonly Explanation[] {
  const counts = whichCount(observations);
  const logs = observations.map((observation) => known.logLikelihood(observation));
  return belief.modes.slice(0, options.modesAtMost ?? 5).map(({ mode, says, p }) => {
    const mine: number[] = [];
    const others: number[] = [];
    for (const [h, { modes }] of known.hypotheses.entries()) {
      (modes.some(({ id }) => id === mode) ? mine : others).push(h);
    }
    const best = mine.reduce((top, h) => (belief.logPosterior[h] > belief.logPosterior[top] ? h : top), mine[0]);
    return {
      mode,
      says,
      p,
      observations: observations.map((observation, index): Argument => {
        const without = (h: number): number => belief.logPosterior[h] - (counts[index] ? logs[index][h] : 0);
        const prediction = known.prediction(best, observation);
        return {
          observation: index,
          overruled: !counts[index],
          ...(prediction === undefined ? {} : { prediction }),
          predicted: prediction === undefined ? chanceSays(logs[index][best]) : predictionSays(prediction, observation),
          weight: meanLog(mine, without, logs[index]) - meanLog(others, without, logs[index]),
        };
      }),
    };
  });
}

/** ln of the mean chance of an observation over some hypotheses, weighed by what all other observations leave of them. */
function meanLog(among: readonly number[], without: (h: number) => number, logs: Float64Array): number {
  const weights = among.map(without);
  return logSumExp(weights.map((weight, i) => weight + logs[among[i]])) - logSumExp(weights);
}

function chanceSays(log: number): string {
  return `${Math.round(10 * Math.exp(Math.min(0, log)))} of 10`;
}

/** A prediction in words: its weightiest term, and what else it may be. */
export function predictionSays(prediction: Prediction, observation: Observation): string {
  if (observation.kind !== "reading") return "";
  const unit = unitOfQuantity(observation.probe.quantity);
  const open = prediction.terms.reduce((sum, term) => sum + (term.kind === "open" ? term.weight : 0), 0);
  const values = prediction.terms.filter((term) => term.kind === "value");
  if (values.length === 0 || open > 0.95) return "OL";
  const low = Math.max(0, Math.min(...values.map(({ mean, sigma }) => mean - 2 * sigma)));
  const high = Math.max(...values.map(({ mean, sigma }) => mean + 2 * sigma));
  const from = formatAmount(low, unit, 2);
  const to = formatAmount(high, unit, 2);
  const band = from === to ? `about ${to}` : low === 0 ? `under ${to}` : `${from} to ${to}`;
  return open < 0.05 ? band : open > 0.5 ? `mostly OL, else ${band}` : `${band}, or OL`;
}
