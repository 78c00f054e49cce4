import type { Shop } from "../remedy/index.ts";
import type { ForeseenCase } from "../suspect/index.ts";
import { type BelievedJob, believeJob, type Carried } from "./believe-job.ts";
import type { JobState } from "./fold-job.ts";

/**
 * Believes one job again and again as its events come: the case after its last repair is kept, since carrying it over a repair
 * is dear and what happens after the repair changes nothing of it. Gives what `believeJob` gives.
 */
export class KeptRepairs {
  readonly #kept = new WeakMap<ForeseenCase, { readonly key: string; readonly carried: Carried }>();

  /** @param opened  the case as opened; the last job of each such case is kept */
  believe(opened: ForeseenCase, state: JobState, shop: Shop): BelievedJob {
    const { repairs } = state;
    const last = repairs.at(-1);
    if (last === undefined) return believeJob(opened, state, shop);
    const key = keyOf(state, last.after, shop);
    const kept = this.#kept.get(opened);
    if (kept?.key === key) return believeJob(kept.carried, state, shop);
    const believed = believeJob(opened, state, shop);
    this.#kept.set(opened, { key, carried: { case: believed.case, repairs: repairs.length } });
    return believed;
  }
}

/** Everything that the case after the last repair hangs on; the events' own numbers are no part of it. */
function keyOf({ repairs, observations }: JobState, after: number, shop: Shop): string {
  const before = observations.slice(0, after).map(({ observation }) => observation);
  const done = repairs.map(({ remedy, on, worked, after: at }) => ({ remedy, on, worked, at }));
  return JSON.stringify([shop.id, done, before], (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
}
