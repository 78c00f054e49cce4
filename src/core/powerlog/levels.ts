import { BEGINS } from "./load.ts";
import type { Timeline } from "./timeline.ts";

/** A power at which a log dwells. */
export interface PowerLevel {
  readonly watts: number;
  /** Seconds in all. */
  readonly seconds: number;
}

/** A level is held for at least so long; powers this near to its middle are of it (our own choice). */
const LEAST_SECONDS = 60;
const NEAR = { watts: 4, share: 0.08 } as const;

/**
 * The powers below a heater's at which a log dwells, the longest first: the watts round which most time was spent, then
 * the same of what is left.
 */
export function levelsOf({ seconds, calm, holds }: Timeline): readonly PowerLevel[] {
  const spent = new Float64Array(BEGINS.heater);
  for (let at = 0; at < calm.length; at++) {
    const watts = Math.round(calm[at]);
    if (watts >= 0 && watts < BEGINS.heater) spent[watts] += Math.max(0, holds[at] - seconds[at]);
  }
  const levels: PowerLevel[] = [];
  for (;;) {
    const level = densest(spent);
    if (level.seconds < LEAST_SECONDS) return levels;
    levels.push({ watts: level.watts, seconds: level.seconds });
    spent.fill(0, level.from, level.to);
  }
}

function densest(spent: Float64Array): PowerLevel & { readonly from: number; readonly to: number } {
  let best = { watts: 0, seconds: 0, from: 0, to: spent.length };
  for (let watts = 0; watts < spent.length; watts++) {
    const reach = Math.round(Math.max(NEAR.watts, NEAR.share * watts));
    const from = Math.max(0, watts - reach);
    const to = Math.min(spent.length, watts + reach + 1);
    const near = spent.subarray(from, to);
    const seconds = near.reduce((sum, time) => sum + time, 0);
    if (seconds > best.seconds) best = { watts: from + middleOf(near, seconds), seconds, from, to };
  }
  return best;
}

/** Index by which half the time is spent. */
function middleOf(times: Float64Array, total: number): number {
  let left = total / 2;
  return times.findIndex((time) => {
    left -= time;
    return left <= 0;
  });
}
