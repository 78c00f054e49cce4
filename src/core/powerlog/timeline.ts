import type { PowerLog } from "./read-log.ts";

/** A log put in order: one sample a moment, time going forward, holes named. */
export interface Timeline {
  readonly seconds: Float64Array;
  readonly watts: Float64Array;
  /** The same without lone samples that nothing around them bears out. */
  readonly calm: Float64Array;
  readonly volts?: Float64Array;
  /** Usual seconds from one sample to the next. */
  readonly every: number;
  /** Until when a sample holds: the next one's time, or one usual interval where a hole follows. */
  readonly holds: Float64Array;
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Rows at a time that was there already; rows whose clock had gone back; lone samples put aside. */
  readonly doubled: number;
  readonly backward: number;
  readonly glitches: readonly { readonly at: number; readonly watts: number }[];
}

/** A hole is this many usual intervals, and this many seconds longer than one (our own choice). */
const GAP = { intervals: 5, seconds: 10 } as const;
/** A lone sample this far from both neighbours, which agree with one another as given, is a glitch (our own choice). */
const GLITCH = { watts: 300, agreeWatts: 30, agreeShare: 0.1 } as const;

/** Puts a log in order. Rows of one moment become their mean; rows behind the clock are left out. */
export function timelineOf(log: PowerLog): Timeline {
  const seconds: number[] = [];
  const watts: number[] = [];
  const volts: number[] = [];
  let doubled = 0;
  let backward = 0;
  let isBroken = false;
  let atOnce = 0;
  const breaks = new Set<number>();
  for (let row = 0; row < log.seconds.length; row++) {
    const time = log.seconds[row];
    const power = log.watts[row];
    const last = seconds.length - 1;
    if (last >= 0 && time < seconds[last]) {
      backward++;
      isBroken = true;
      continue;
    }
    if (last >= 0 && time === seconds[last]) {
      doubled++;
      if (Number.isNaN(power)) continue;
      atOnce++;
      watts[last] += (power - watts[last]) / atOnce;
      continue;
    }
    // Nothing logged is a hole like one without rows.
    if (Number.isNaN(power)) continue;
    if (isBroken) breaks.add(seconds.length);
    isBroken = false;
    atOnce = 1;
    seconds.push(time);
    watts.push(power);
    if (log.volts !== undefined) volts.push(log.volts[row]);
  }
  return inOrder(seconds, watts, log.volts === undefined ? undefined : volts, breaks, { doubled, backward });
}

function inOrder(
  seconds: readonly number[],
  watts: readonly number[],
  volts: readonly number[] | undefined,
  breaks: ReadonlySet<number>,
  counts: { readonly doubled: number; readonly backward: number },
): Timeline {
  const every = usualInterval(seconds);
  const longest = Math.max(GAP.intervals * every, every + GAP.seconds);
  const isHole = (next: number): boolean => breaks.has(next) || seconds[next] - seconds[next - 1] > longest;
  const holds = new Float64Array(seconds.length);
  for (let at = 0; at < seconds.length; at++) {
    holds[at] = at + 1 < seconds.length && !isHole(at + 1) ? seconds[at + 1] : seconds[at] + every;
  }
  const gaps: { from: number; to: number }[] = [];
  for (let at = 1; at < seconds.length; at++) {
    if (isHole(at)) gaps.push({ from: Math.min(holds[at - 1], seconds[at]), to: seconds[at] });
  }
  const calm = Float64Array.from(watts);
  const glitches: { at: number; watts: number }[] = [];
  for (let at = 1; at + 1 < seconds.length; at++) {
    if (isHole(at) || isHole(at + 1)) continue;
    const before = calm[at - 1];
    const after = watts[at + 1];
    const between = (before + after) / 2;
    const agree = Math.abs(after - before) <= Math.max(GLITCH.agreeWatts, GLITCH.agreeShare * between);
    const away = Math.min(Math.abs(watts[at] - before), Math.abs(watts[at] - after));
    if (!agree || away < GLITCH.watts) continue;
    calm[at] = between;
    glitches.push({ at: seconds[at], watts: watts[at] });
  }
  return {
    seconds: Float64Array.from(seconds),
    watts: Float64Array.from(watts),
    calm,
    ...(volts === undefined ? {} : { volts: Float64Array.from(volts) }),
    every,
    holds,
    gaps,
    ...counts,
    glitches,
  };
}

/** The middle one of all intervals. */
function usualInterval(seconds: readonly number[]): number {
  if (seconds.length < 2) return 1;
  const intervals = new Float64Array(seconds.length - 1);
  for (let at = 0; at < intervals.length; at++) intervals[at] = seconds[at + 1] - seconds[at];
  return intervals.sort()[intervals.length >> 1];
}
