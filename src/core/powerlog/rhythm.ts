import type { Stretch } from "./analysis.ts";
import { median } from "./load.ts";

/** A load that comes and goes by the clock: a thermostat, an energy regulator, a timer. */
export interface Rhythm {
  readonly load: "heater" | "motor or pump";
  readonly times: number;
  /** From one start to the next (mean), and how long it runs each time (middle value): seconds. */
  readonly periodSeconds: number;
  readonly onSeconds: number;
}

/** Fewer starts are no rhythm; most periods lie this near to the middle one (our own choice). */
const LEAST_TIMES = 4;
const NEAR = 0.15;

/** The rhythm of a load, if it keeps one. Starts with a hole before them tell no period. */
export function rhythmOf(stretches: readonly Stretch[], load: Rhythm["load"]): Rhythm | undefined {
  const runs = stretches.filter((stretch) => stretch.load === load);
  if (runs.length < LEAST_TIMES) return undefined;
  const periods = runs.slice(1).map((run, at) => run.from - runs[at].from);
  const periodSeconds = median(periods);
  const near = periods.filter((period) => Math.abs(period - periodSeconds) <= NEAR * periodSeconds);
  if (near.length < (3 / 4) * periods.length) return undefined;
  return {
    load,
    times: runs.length,
    periodSeconds: near.reduce((sum, period) => sum + period, 0) / near.length,
    onSeconds: median(runs.slice(0, -1).map((run) => run.onSeconds)),
  };
}
