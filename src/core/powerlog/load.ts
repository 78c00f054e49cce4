/** What draws power, judged by its watts alone: a log names no part. */
export type Load = (typeof LOADS)[number];

/** The least first. */
export const LOADS = ["standing by", "small load", "motor or pump", "heater"] as const;

/**
 * Where one begins, watts: a valve or drain pump, a circulation pump or motor, a heater. From memory, for dishwashers, dryers,
 * washers and cold: no motor of theirs draws more for longer than it takes to start.
 */
export const BEGINS = { "small load": 12, "motor or pump": 45, heater: 700 } as const;

/** The load that so many watts at the plug speak of. */
export function loadOf(watts: number): Load {
  if (watts >= BEGINS.heater) return "heater";
  if (watts >= BEGINS["motor or pump"]) return "motor or pump";
  return watts >= BEGINS["small load"] ? "small load" : "standing by";
}

/** The middle one of some values. */
export function median(values: Iterable<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
