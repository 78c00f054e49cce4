import { normalCdf } from "../chance/index.ts";
import {
  type Leads,
  leadsOf,
  type Meter,
  measured,
  pickRange,
  type Quantity,
  standardUncertaintyOf,
  topOf,
} from "../meter/index.ts";
import type { PredictedTerm, Prediction } from "../predict/index.ts";

/** The set-up of a reading: with it the display's own spread is known. */
export interface SetUp {
  readonly meter: Meter;
  readonly quantity: Quantity;
  readonly leads: Leads;
}

/** A predicted value as the display would show it. */
interface Shown {
  readonly mean: number;
  readonly sigma: number;
  readonly weight: number;
}

/** One band of the display. */
export interface Band {
  /** Edges, for chances; the outermost are infinite. */
  readonly low: number;
  readonly high: number;
  /** What was foreseen in it: lowest and highest of the means, two sigmas out, and their mean. */
  readonly from: number;
  readonly to: number;
  readonly typical: number;
}

/** Bands that the meter can tell apart, from low to high, and OL where that may be. */
export interface Partition {
  readonly setUp: SetUp;
  readonly bands: readonly Band[];
  readonly overLimit: boolean;
  readonly top: number;
}

/** Outcomes of one reading: few enough for a person and for planning. */
const BANDS_AT_MOST = 4;
/** Two means nearer than this many of their joint sigmas are one. */
const APART = 0.6;
/** Means nearer than this share of a sigma are one term. */
const ALIKE = 0.1;
/** A band must be worth telling apart. */
const LEAST_WEIGHT = 0.003;

/** Parts what a display may show into bands, best where few hypotheses straddle an edge and the odds are split evenly. */
export function partitionOf(
  foreseen: readonly { readonly weight: number; readonly prediction: Prediction }[],
  setUp: SetUp,
): Partition {
  const top = topOf(setUp.meter, setUp.quantity);
  const opens = measured(setUp.quantity).openIsOverLimit;
  const shown: Shown[] = [];
  let over = 0;
  for (const { weight, prediction } of foreseen) {
    for (const term of prediction.terms) {
      const at = shownOf(term, setUp);
      if ((opens && term.kind === "open") || at.mean > top) over += weight * term.weight;
      else shown.push({ ...at, weight: weight * term.weight });
    }
  }
  shown.sort((a, b) => a.mean - b.mean);
  const terms = merged(shown.filter(({ weight }) => weight > 0));
  const cuts = cutsOf(terms);
  const edges = [Number.NEGATIVE_INFINITY, ...cuts, Number.POSITIVE_INFINITY];
  const bands = edges.slice(1).flatMap((high, i): readonly Band[] => {
    const inside = terms.filter(({ mean }) => mean > edges[i] && mean <= high);
    return inside.length === 0 ? [] : [bandOf(inside, edges[i], high)];
  });
  return { setUp, bands, overLimit: over > 0 || bands.length === 0, top };
}

/** Chance of each band, then of OL where it is an outcome. */
export function bandChances({ bands, overLimit, top, setUp }: Partition, prediction: Prediction): Float64Array {
  const chances = new Float64Array(bands.length + (overLimit ? 1 : 0));
  const opens = measured(setUp.quantity).openIsOverLimit;
  for (const term of prediction.terms) {
    if (opens && term.kind === "open") {
      chances[chances.length - 1] += term.weight;
      continue;
    }
    const { mean, sigma } = shownOf(term, setUp);
    let below = 0;
    for (let b = 0; b < bands.length; b++) {
      const edge = b === bands.length - 1 ? (overLimit ? top : Number.POSITIVE_INFINITY) : bands[b].high;
      const upTo = edge === Number.POSITIVE_INFINITY ? 1 : cdf((edge - mean) / sigma);
      chances[b] += term.weight * (upTo - below);
      below = upTo;
    }
    if (overLimit) chances[chances.length - 1] += term.weight * (1 - below);
  }
  return chances;
}

function cdf(z: number): number {
  return z > 6 ? 1 : z < -6 ? 0 : normalCdf(z);
}

function shownOf(term: PredictedTerm, { meter, quantity, leads }: SetUp): { mean: number; sigma: number } {
  const lead = leadsOf(meter, quantity, leads);
  const mean = (term.kind === "open" ? 0 : term.mean) + lead.ohms;
  const range = pickRange(meter, quantity, mean);
  const own = range === undefined ? 0.05 * Math.abs(mean) : standardUncertaintyOf(range, mean);
  const digit = range === undefined ? 0 : range.resolution / 2;
  return { mean, sigma: Math.max(Math.hypot(term.kind === "open" ? 0 : term.sigma, own, lead.u, digit), 1e-12) };
}

/** Edges between neighbours, the best few: much weight on both sides, little that an edge would leave in doubt. */
function cutsOf(shown: readonly Shown[]): readonly number[] {
  const total = shown.reduce((sum, { weight }) => sum + weight, 0);
  const gaps: { at: number; worth: number }[] = [];
  let left = 0;
  for (let i = 0; i + 1 < shown.length; i++) {
    const low = shown[i];
    const high = shown[i + 1];
    left += low.weight;
    const smaller = Math.min(left, total - left);
    if (smaller < LEAST_WEIGHT * total) continue;
    if (high.mean - low.mean < APART * (low.sigma + high.sigma)) continue;
    const at = (low.mean * high.sigma + high.mean * low.sigma) / (low.sigma + high.sigma);
    let doubt = 0;
    for (const { mean, sigma, weight } of shown) doubt += weight * cdf(-Math.abs(at - mean) / sigma);
    const worth = Math.sqrt(smaller / total) * (1 - doubt / smaller);
    if (worth > 0) gaps.push({ at, worth });
  }
  gaps.sort((a, b) => b.worth - a.worth);
  return gaps
    .slice(0, BANDS_AT_MOST - 1)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
}

/** Terms that the display shows alike become one, so that many hypotheses cost no more than what they say. */
function merged(shown: readonly Shown[]): readonly Shown[] {
  const kept: { mean: number; sigma: number; weight: number }[] = [];
  for (const term of shown) {
    const last = kept.at(-1);
    if (last === undefined || term.mean - last.mean > ALIKE * Math.min(last.sigma, term.sigma)) kept.push({ ...term });
    else {
      const weight = last.weight + term.weight;
      last.sigma = (last.weight * last.sigma + term.weight * term.sigma) / weight;
      last.weight = weight;
    }
  }
  return kept;
}

function bandOf(inside: readonly Shown[], low: number, high: number): Band {
  const weight = inside.reduce((sum, term) => sum + term.weight, 0);
  const typical = inside.reduce((sum, term) => sum + term.weight * term.mean, 0) / weight;
  return {
    low,
    high,
    from: Math.max(low, Math.min(...inside.map(({ mean, sigma }) => mean - 2 * sigma))),
    to: Math.min(high, Math.max(...inside.map(({ mean, sigma }) => mean + 2 * sigma))),
    typical,
  };
}
