import { BEGINS, median } from "./load.ts";
import type { Piece } from "./pieces.ts";
import type { Timeline } from "./timeline.ts";

/** One stretch of heating at one strength. */
export interface Heating {
  readonly from: number;
  readonly to: number;
  /** Middle watts at the plug. */
  readonly watts: number;
  /** What runs beside the heater: always, or now and then with the share of time. */
  readonly beside: { readonly watts: number; readonly share: number };
  /** The heater by itself, watts: without what runs beside it. */
  readonly heaterWatts: number;
  readonly unknownSeconds: number;
  /** How often it dropped out for a few seconds and went on. */
  readonly drops: number;
}

/** Power that changes by more than this, lastingly, is another strength (our own choice; a reversing drum moves it by 17 % at most). */
const OTHER_STRENGTH = 0.75;
const LASTING = { samples: 3, seconds: 10 } as const;
/** The strength so far is the middle of so many samples; it is looked at anew every quarter of them. */
const LOOK_BACK = 32;
/** Two powers in turn, told apart: watts between them, against their own spread, each with this share, so many times (our own choice). */
const IN_TURN = { watts: 40, spreads: 3, share: 0.1, times: 3 } as const;
/** What ran just before or after it: so many samples, within so many seconds. */
const NEAR = { samples: 5, seconds: 30 } as const;

/** The heatings in one piece of heater: cut where the strength changes, its ends set half way up. */
export function heatingsOf(timeline: Timeline, piece: Piece): readonly Heating[] {
  const cuts = [piece.first, ...strengthChanges(timeline, piece), piece.last + 1];
  return cuts.slice(1).flatMap((end, at) => heatingOf(timeline, piece, cuts[at], end - 1) ?? []);
}

function strengthChanges({ seconds, calm }: Timeline, { first, last }: Piece): readonly number[] {
  const cuts: number[] = [];
  let begin = first;
  let other = 0;
  let strength = Number.NaN;
  let due = first;
  for (let at = first + 1; at <= last; at++) {
    if (at - other - begin < LASTING.samples) continue;
    if (other === 0 && at >= due) {
      strength = median(calm.subarray(Math.max(begin, at - LOOK_BACK), at));
      due = at + LOOK_BACK / 4;
    }
    const ratio = calm[at] / strength;
    other = ratio < OTHER_STRENGTH || ratio > 1 / OTHER_STRENGTH ? other + 1 : 0;
    const since = at - other + 1;
    if (other < LASTING.samples || seconds[at] - seconds[since] < LASTING.seconds) continue;
    cuts.push(since);
    begin = since;
    due = since;
    other = 0;
  }
  return cuts;
}

function heatingOf(timeline: Timeline, piece: Piece, first: number, last: number): Heating | undefined {
  const { seconds, calm, holds, gaps } = timeline;
  const watts = median(calm.subarray(first, last + 1));
  const before = middleNear(timeline, piece.first, -1);
  const after = middleNear(timeline, piece.last, 1);
  const halfUp = Math.max(BEGINS.heater, (watts + before) / 2);
  const halfDown = Math.max(BEGINS.heater, (watts + after) / 2);
  let begin = first;
  while (begin < last && calm[begin] < halfUp) begin++;
  let end = last;
  while (end > begin && calm[end] < halfDown) end--;
  // One sample makes no event.
  if (end === begin) return undefined;
  const heating = calm.subarray(begin, end + 1).filter((power) => power >= BEGINS.heater);
  const inTurn = powersInTurn(heating);
  const steady = Math.max(before, after);
  const beside =
    inTurn === undefined ? { watts: steady, share: 1 } : { watts: inTurn.high - inTurn.low, share: inTurn.share };
  return {
    from: seconds[begin],
    to: holds[end],
    watts,
    beside,
    heaterWatts: inTurn === undefined ? watts - steady : inTurn.low,
    unknownSeconds: gaps
      .filter((gap) => gap.from >= seconds[begin] && gap.to <= holds[end])
      .reduce((sum, gap) => sum + gap.to - gap.from, 0),
    drops: dropsIn(calm.subarray(begin, end + 1)),
  };
}

function dropsIn(values: Float64Array): number {
  let drops = 0;
  for (let at = 1; at < values.length; at++) if (values[at] < BEGINS.heater && values[at - 1] >= BEGINS.heater) drops++;
  return drops;
}

/** Middle power of the few samples before (-1) or after (1) a sample; 0 where nothing was logged. */
function middleNear({ seconds, calm }: Timeline, from: number, way: 1 | -1): number {
  const near: number[] = [];
  const isNear = (at: number): boolean => Math.abs((seconds[at] ?? Number.NaN) - seconds[from]) <= NEAR.seconds;
  for (let at = from + way; isNear(at) && near.length < NEAR.samples && calm[at] < BEGINS.heater; at += way) {
    near.push(calm[at]);
  }
  return near.length === 0 ? 0 : median(near);
}

/**
 * Two powers that take turns, as a drum that turns and rests beside the heater; undefined where there is but one. Cut where it
 * parts the values best.
 *
 * @source N. Otsu, "A threshold selection method from gray-level histograms", IEEE Trans. SMC 9 (1979) 62-66: largest variance between
 */
function powersInTurn(
  values: Float64Array,
): { readonly low: number; readonly high: number; readonly share: number } | undefined {
  const sorted = values.slice().sort();
  const total = sorted.reduce((sum, value) => sum + value, 0);
  let cut = 0;
  let best = 0;
  let sum = 0;
  for (let count = 1; count < sorted.length; count++) {
    sum += sorted[count - 1];
    const apart = sum / count - (total - sum) / (sorted.length - count);
    const between = count * (sorted.length - count) * apart * apart;
    if (between > best) [best, cut] = [between, count];
  }
  if (cut === 0) return undefined;
  const low = median(sorted.subarray(0, cut));
  const high = median(sorted.subarray(cut));
  const share = (sorted.length - cut) / sorted.length;
  const middle = (low + high) / 2;
  const spread = median(sorted.map((value) => Math.abs(value - (value < middle ? low : high))));
  let times = 0;
  for (let at = 1; at < values.length; at++) if (values[at - 1] < middle && values[at] >= middle) times++;
  const isTold =
    high - low >= Math.max(IN_TURN.watts, IN_TURN.spreads * spread) &&
    Math.min(share, 1 - share) >= IN_TURN.share &&
    times >= IN_TURN.times;
  return isTold ? { low, high, share } : undefined;
}
