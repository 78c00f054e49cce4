import { normalCdf } from "../chance/index.ts";
import {
  type Leads,
  leadsOf,
  type Meter,
  measured,
  type PickUp,
  pickUpOf,
  type Quantity,
  rangesOf,
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

/** What is foreseen of a reading, and the weight of all who foresee it. */
export interface Foreseen {
  readonly weight: number;
  /** The same weight by what would be at fault, however badly: to tell two severities of one fault apart is no news. */
  readonly of: ReadonlyMap<string, number>;
  readonly prediction: Prediction;
}

/** A display: where it puts a predicted value, and how far that is spread by its own errors. */
class Display {
  readonly opens: boolean;
  readonly top: number;
  readonly pickUp: PickUp | undefined;
  readonly #ranges: ReturnType<typeof rangesOf>;
  readonly #lead: ReturnType<typeof leadsOf>;

  constructor({ meter, quantity, leads }: SetUp) {
    this.opens = measured(quantity).openIsOverLimit;
    this.top = topOf(meter, quantity);
    this.pickUp = pickUpOf(quantity);
    this.#ranges = rangesOf(meter, quantity);
    this.#lead = leadsOf(meter, quantity, leads);
  }

  isOver(term: PredictedTerm): boolean {
    return term.kind === "open" ? this.opens : term.mean + this.#lead.ohms > this.top;
  }

  /** No path shows as zero where it is not over-limit. */
  mean(term: PredictedTerm): number {
    return (term.kind === "open" ? 0 : term.mean) + this.#lead.ohms;
  }

  /** Of a clean reading. */
  sigma(term: PredictedTerm): number {
    const mean = this.mean(term);
    let own = 0.05 * Math.abs(mean);
    let digit = 0;
    for (const range of this.#ranges) {
      if (Math.abs(mean) > range.top) continue;
      own = standardUncertaintyOf(range, mean);
      digit = range.resolution / 2;
      break;
    }
    const spread = term.kind === "open" ? 0 : term.sigma;
    return Math.sqrt(spread * spread + own * own + this.#lead.u ** 2 + digit * digit) || 1e-12;
  }

  /** Of all readings, those with what the leads pick up among them. */
  sigmaInAll(term: PredictedTerm): number {
    const clean = this.sigma(term);
    return this.pickUp === undefined ? clean : Math.sqrt(clean * clean + this.pickUp.often * this.pickUp.sigma ** 2);
  }
}

/** A predicted value as the display would show it. */
interface Shown {
  readonly mean: number;
  readonly sigma: number;
  readonly weight: number;
  /** Weight of each fault in it. */
  readonly of: ReadonlyMap<string, number>;
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
  readonly display: Display;
  readonly bands: readonly Band[];
  readonly overLimit: boolean;
}

/** Outcomes of one reading: few enough for a person and for planning. */
const BANDS_AT_MOST = 5;
/** Two means nearer than this many of their joint sigmas are one. */
const APART = 0.6;
/** Means nearer than this share of a sigma are one term. */
const ALIKE = 0.1;
/** A band must be worth telling apart. */
const LEAST_WEIGHT = 0.003;

/** Parts what a display may show into bands, best where few hypotheses straddle an edge and the odds are split evenly. */
export function partitionOf(foreseen: readonly Foreseen[], setUp: SetUp): Partition {
  const display = new Display(setUp);
  const shown: Shown[] = [];
  let over = 0;
  for (const { of, weight, prediction } of foreseen) {
    for (const term of prediction.terms) {
      if (weight * term.weight === 0) continue;
      if (display.isOver(term)) over += weight * term.weight;
      else {
        const held = weight * term.weight;
        shown.push({
          mean: display.mean(term),
          sigma: display.sigmaInAll(term),
          weight: held,
          of: new Map([...of].map(([id, part]) => [id, part * term.weight])),
        });
      }
    }
  }
  shown.sort((a, b) => a.mean - b.mean);
  const terms = merged(shown);
  const edges = [Number.NEGATIVE_INFINITY, ...cutsOf(terms), Number.POSITIVE_INFINITY];
  const bands = edges.slice(1).flatMap((high, i): readonly Band[] => {
    const inside = terms.filter(({ mean }) => mean > edges[i] && mean <= high);
    return inside.length === 0 ? [] : [bandOf(inside, edges[i], high)];
  });
  return { display, bands, overLimit: over > 0 || bands.length === 0 };
}

/** Chance of each band, then of OL where it is an outcome. */
export function bandChances(partition: Partition, prediction: Prediction): Float64Array {
  const { bands, overLimit, display } = partition;
  const chances = new Float64Array(bands.length + (overLimit ? 1 : 0));
  for (const term of prediction.terms) {
    if (term.kind === "open" && display.opens) {
      chances[chances.length - 1] += term.weight;
      continue;
    }
    const mean = display.mean(term);
    const sigma = display.sigma(term);
    const { pickUp } = display;
    if (pickUp === undefined) addTo(chances, partition, term.weight, mean, sigma);
    else {
      addTo(chances, partition, term.weight * (1 - pickUp.often), mean, sigma);
      addTo(chances, partition, term.weight * pickUp.often, mean, Math.sqrt(sigma * sigma + pickUp.sigma ** 2));
    }
  }
  return chances;
}

/** Shares a normal reading out among the bands. */
function addTo(
  chances: Float64Array,
  { bands, overLimit, display }: Partition,
  weight: number,
  mean: number,
  sigma: number,
): void {
  let below = 0;
  for (let b = 0; b < bands.length; b++) {
    const edge = b === bands.length - 1 && overLimit ? display.top : bands[b].high;
    const upTo = edge === Number.POSITIVE_INFINITY ? 1 : cdf((edge - mean) / sigma);
    chances[b] += weight * (upTo - below);
    below = upTo;
  }
  if (overLimit) chances[chances.length - 1] += weight * (1 - below);
}

const FARTHEST = 6;
const STEPS = 64;
const TABLE = Float64Array.from({ length: 2 * FARTHEST * STEPS + 2 }, (_, i) => normalCdf(i / STEPS - FARTHEST));

/** P(Z < z) from a table, right to 1e-5: tables of outcomes need thousands of these. */
function cdf(z: number): number {
  if (z >= FARTHEST) return 1;
  if (!(z > -FARTHEST)) return 0;
  const at = (z + FARTHEST) * STEPS;
  const i = Math.floor(at);
  return TABLE[i] + (at - i) * (TABLE[i + 1] - TABLE[i]);
}

/** Edges between neighbours, the best few: other faults on either side, much weight on both, little left in doubt. */
function cutsOf(shown: readonly Shown[]): readonly number[] {
  const total = shown.reduce((sum, { weight }) => sum + weight, 0);
  const gaps: { at: number; worth: number }[] = [];
  const whole = sumsOf(shown);
  const below = new Map<string, number>();
  let left = 0;
  for (let i = 0; i + 1 < shown.length; i++) {
    const low = shown[i];
    const high = shown[i + 1];
    left += low.weight;
    for (const [of, weight] of low.of) below.set(of, (below.get(of) ?? 0) + weight);
    const smaller = Math.min(left, total - left);
    if (smaller < LEAST_WEIGHT * total) continue;
    if (high.mean - low.mean < APART * (low.sigma + high.sigma)) continue;
    const at = (low.mean * high.sigma + high.mean * low.sigma) / (low.sigma + high.sigma);
    let doubt = 0;
    for (const { mean, sigma, weight } of shown) doubt += weight * cdf(-Math.abs(at - mean) / sigma);
    const worth = Math.sqrt(smaller / total) * (1 - doubt / smaller) * partedBy(below, whole, left / total);
    if (worth > 0) gaps.push({ at, worth });
  }
  gaps.sort((a, b) => b.worth - a.worth);
  return gaps
    .slice(0, BANDS_AT_MOST - 1)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
}

function sumsOf(shown: readonly Shown[]): ReadonlyMap<string, number> {
  const sums = new Map<string, number>();
  for (const term of shown) for (const [of, weight] of term.of) sums.set(of, (sums.get(of) ?? 0) + weight);
  return sums;
}

/** Of what an edge tells, the share that is of which fault it is: 1 where none is on both sides, 0 where all are alike. */
function partedBy(below: ReadonlyMap<string, number>, whole: ReadonlyMap<string, number>, left: number): number {
  let total = 0;
  let within = 0;
  for (const [of, weight] of whole) {
    total += weight;
    within += weight * entropy((below.get(of) ?? 0) / weight);
  }
  return Math.max(0, 1 - within / total / entropy(left));
}

/** Of a yes with this chance, in nats. */
function entropy(p: number): number {
  return p <= 0 || p >= 1 ? 0 : -p * Math.log(p) - (1 - p) * Math.log(1 - p);
}

/** Terms that the display shows alike become one, so that many hypotheses cost no more than what they say. */
function merged(shown: readonly Shown[]): readonly Shown[] {
  const kept: { mean: number; sigma: number; weight: number; of: Map<string, number> }[] = [];
  for (const term of shown) {
    const last = kept.at(-1);
    if (last === undefined || term.mean - last.mean > ALIKE * Math.min(last.sigma, term.sigma))
      kept.push({ ...term, of: new Map(term.of) });
    else {
      const weight = last.weight + term.weight;
      last.sigma = (last.weight * last.sigma + term.weight * term.sigma) / weight;
      last.weight = weight;
      for (const [of, held] of term.of) last.of.set(of, (last.of.get(of) ?? 0) + held);
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
