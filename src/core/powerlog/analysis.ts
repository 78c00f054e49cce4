import { type Heating, heatingsOf } from "./heating.ts";
import { levelsOf, type PowerLevel } from "./levels.ts";
import { LOADS, type Load, loadOf, median } from "./load.ts";
import { type Piece, piecesOf } from "./pieces.ts";
import type { PowerLog } from "./read-log.ts";
import { type Rhythm, rhythmOf } from "./rhythm.ts";
import { type Timeline, timelineOf } from "./timeline.ts";

/** One stretch of a log in which one load ran, or came and went. Seconds from the first row. */
export interface Stretch {
  readonly load: Load | "unknown";
  readonly from: number;
  readonly to: number;
  /** Middle watts at the plug while it ran; NaN where unknown. */
  readonly watts: number;
  /** Seconds in which it ran; rests and holes are not in it. */
  readonly onSeconds: number;
  readonly unknownSeconds: number;
  /** The first sample, where it stands at twice the watts of all others or more: the surge of a motor that starts. */
  readonly surgeWatts?: number;
  /** Of a heater: what it draws by itself, and what runs beside it. */
  readonly heating?: Heating;
}

/** What a log shows: stretches in order, heater strengths, rhythms, and how far it can be trusted. */
export interface PowerAnalysis {
  readonly seconds: number;
  readonly everySeconds: number;
  /** Taken up in what was logged; holes add nothing. */
  readonly kilowattHours: number;
  readonly unknownSeconds: number;
  readonly gaps: Timeline["gaps"];
  readonly doubled: number;
  readonly backward: number;
  readonly glitches: Timeline["glitches"];
  /** Does it stand by at the first row, at the last? If not, what came before or after is not known. */
  readonly beginsAtRest: boolean;
  readonly endsAtRest: boolean;
  readonly stretches: readonly Stretch[];
  /** Strengths of heating that differ by a quarter or more, the longest first: watts at the plug, seconds, how often. */
  readonly strengths: readonly { readonly watts: number; readonly seconds: number; readonly times: number }[];
  /** Powers at which it stayed without heating, the longest first. */
  readonly levels: readonly PowerLevel[];
  /** Of its heater, or where there is none of its motor: a load that comes and goes by the clock. */
  readonly rhythm?: Rhythm;
  /** Middle of the logged mains volts while something ran. */
  readonly volts?: number;
}

/** At rest: this long under the least of loads, at least so many samples (our own choice). */
const AT_REST = { seconds: 20, samples: 3 } as const;
/** Strengths this near to one another are one (our own choice). */
const SAME_STRENGTH = 0.75;

/** What a log of power shows, whatever machine it is of. */
export function analysePower(log: PowerLog): PowerAnalysis {
  const timeline = timelineOf(log);
  const { seconds, watts, every, gaps, doubled, backward, glitches } = timeline;
  const stretches = piecesOf(timeline).flatMap((piece) => stretchesOf(timeline, piece));
  const volts = voltsWhileOn(timeline);
  const rhythm = rhythmOf(stretches, stretches.some(({ load }) => load === "heater") ? "heater" : "motor or pump");
  return {
    seconds: (seconds.at(-1) ?? 0) - (seconds[0] ?? 0),
    everySeconds: every,
    kilowattHours: energyOf(timeline) / 3.6e6,
    unknownSeconds: gaps.reduce((sum, gap) => sum + gap.to - gap.from, 0),
    gaps,
    doubled,
    backward,
    glitches,
    beginsAtRest: isAtRest(seconds, watts),
    endsAtRest: isAtRest(seconds.slice().reverse(), watts.slice().reverse()),
    stretches,
    strengths: strengthsOf(stretches),
    levels: levelsOf(timeline),
    ...(rhythm === undefined ? {} : { rhythm }),
    ...(volts === undefined ? {} : { volts }),
  };
}

function stretchesOf(timeline: Timeline, piece: Piece): readonly Stretch[] {
  const { from, to, onSeconds, unknownSeconds, load } = piece;
  if (load === "unknown") return [{ load, from, to, watts: Number.NaN, onSeconds, unknownSeconds }];
  if (load === "heater") {
    return heatingsOf(timeline, piece).map((heating) => ({
      load,
      from: heating.from,
      to: heating.to,
      watts: heating.watts,
      onSeconds: heating.to - heating.from - heating.unknownSeconds,
      unknownSeconds: heating.unknownSeconds,
      heating,
    }));
  }
  const all = timeline.watts.subarray(piece.first, piece.last + 1);
  const running = all.filter((watts) => LOADS.indexOf(loadOf(watts)) >= LOADS.indexOf(load));
  // A sample alone may have been counted to its neighbours, so that none is left at the load's own power.
  const own = running.length === 0 ? all : running;
  const middle = median(own);
  const first = timeline.watts[piece.first];
  const isSurge = load === "motor or pump" && own.length > 3 && first >= 2 * middle;
  return [{ load, from, to, watts: middle, onSeconds, unknownSeconds, ...(isSurge ? { surgeWatts: first } : {}) }];
}

/** Joules, by trapezia between samples; a sample before a hole holds for one usual interval. */
function energyOf({ seconds, calm, holds }: Timeline): number {
  let joules = 0;
  for (let at = 0; at + 1 < seconds.length; at++) {
    const isHole = holds[at] < seconds[at + 1];
    const mean = isHole ? calm[at] : (calm[at] + calm[at + 1]) / 2;
    joules += mean * Math.max(0, holds[at] - seconds[at]);
  }
  return joules;
}

function isAtRest(seconds: Float64Array, watts: Float64Array): boolean {
  let at = 0;
  while (at < seconds.length && loadOf(watts[at]) === "standing by") {
    at++;
    if (at >= AT_REST.samples && Math.abs(seconds[at - 1] - seconds[0]) >= AT_REST.seconds) return true;
  }
  return false;
}

function strengthsOf(stretches: readonly Stretch[]): PowerAnalysis["strengths"] {
  const heatings = stretches.filter(({ load }) => load === "heater").sort((a, b) => b.onSeconds - a.onSeconds);
  const groups: Stretch[][] = [];
  for (const heating of heatings) {
    const near = groups.find(([first]) => {
      const ratio = heating.watts / first.watts;
      return ratio >= SAME_STRENGTH && ratio <= 1 / SAME_STRENGTH;
    });
    if (near === undefined) groups.push([heating]);
    else near.push(heating);
  }
  return groups
    .map((group) => ({
      watts: weightedMedian(group.map(({ watts, onSeconds }) => [watts, onSeconds] as const)),
      seconds: group.reduce((sum, { onSeconds }) => sum + onSeconds, 0),
      times: group.length,
    }))
    .sort((a, b) => b.seconds - a.seconds);
}

function weightedMedian(values: readonly (readonly [number, number])[]): number {
  const sorted = values.slice().sort(([a], [b]) => a - b);
  let left = sorted.reduce((sum, [, weight]) => sum + weight, 0) / 2;
  for (const [value, weight] of sorted) {
    left -= weight;
    if (left <= 0) return value;
  }
  return sorted.at(-1)?.[0] ?? Number.NaN;
}

function voltsWhileOn({ volts, calm }: Timeline): number | undefined {
  if (volts === undefined) return undefined;
  const logged = volts.filter((value, at) => value > 0 && loadOf(calm[at]) !== "standing by");
  return logged.length === 0 ? undefined : median(logged);
}
