import type { Observation } from "../sign/index.ts";
import type { WorkedJob } from "./work-out.ts";

/** A reading that is what a good machine shows, and what it clears. */
export interface ReadGood {
  readonly reading: Extract<Observation, { kind: "reading" }>;
  /** The likeliest faults, in words, that would be thought possible but for this reading. */
  readonly clears: readonly string[];
}

/** A fault under which a reading is so many times rarer than in a good machine is cleared by it. */
const CLEARS = Math.log(20);
/** Share of the odds, as they would stand without the reading, that it must clear to be worth saying. */
const LEAST_CLEARED = 0.1;
/** Faults named as cleared by one reading. */
const MOST_NAMED = 2;

/**
 * Readings of a job that came out good and thereby narrowed what is asked next, in the order in which they were taken.
 *
 * @returns each with the likeliest faults it clears; none where it clears hardly anything that would otherwise be thought possible
 */
export function readGood({ case: the, observations, belief }: Pick<WorkedJob, "case" | "observations" | "belief">) {
  return observations.flatMap((reading): readonly ReadGood[] => {
    if (reading.kind !== "reading") return [];
    const logs = the.logLikelihood(reading);
    const good = the.hypotheses.reduce(
      (best, { kind }, h) => (kind === "nothing wrong" ? Math.max(best, logs[h] as number) : best),
      Number.NEGATIVE_INFINITY,
    );
    if (logs.some((log) => log - good > CLEARS)) return [];
    const held = new Map<string, number>();
    const cleared = new Map<string, number>();
    let whole = 0;
    for (const [h, { modes }] of the.hypotheses.entries()) {
      const log = logs[h] as number;
      const weight = Math.exp((belief.logPosterior[h] as number) - log);
      whole += weight;
      for (const fault of new Set(modes.map(({ says }) => says))) {
        held.set(fault, (held.get(fault) ?? 0) + weight);
        if (good - log > CLEARS) cleared.set(fault, (cleared.get(fault) ?? 0) + weight);
      }
    }
    // A fault that most machines with it would still have after this reading is not cleared.
    const faults = [...cleared].filter(([fault, w]) => 2 * w > (held.get(fault) ?? 0));
    if (faults.reduce((sum, [, w]) => sum + w, 0) < LEAST_CLEARED * whole) return [];
    const clears = faults.sort(([a, v], [b, w]) => w - v || (a < b ? -1 : 1)).slice(0, MOST_NAMED);
    return [{ reading, clears: clears.map(([fault]) => fault) }];
  });
}
