import type { Meter } from "../meter/index.ts";
import type { Observation } from "../sign/index.ts";

/** More than a long job has of observations; each keeps a number for every hypothesis. */
const MOST = 64;

/**
 * What was worked out of each of the last observations, found by what they say: a job that is folded anew brings the same
 * observations as new objects.
 */
export class Remembered<T> {
  readonly #kept = new Map<string, T>();
  /** Two meters of one name need not be one meter. */
  readonly #meters = new WeakMap<Meter, number>();
  #metersSeen = 0;

  get(observation: Observation): T | undefined {
    const key = this.#keyOf(observation);
    const known = this.#kept.get(key);
    if (known !== undefined) this.#put(key, known);
    return known;
  }

  set(observation: Observation, value: T): void {
    this.#put(this.#keyOf(observation), value);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= MOST) break;
      this.#kept.delete(oldest);
    }
  }

  #put(key: string, value: T): void {
    this.#kept.delete(key);
    this.#kept.set(key, value);
  }

  #keyOf(observation: Observation): string {
    if (observation.kind === "reading") {
      const { probe, meter, ...rest } = observation;
      return JSON.stringify([probe.id, this.#numberOf(meter), rest]);
    }
    if (observation.kind === "count") return JSON.stringify({ ...observation, probe: observation.probe.id });
    return JSON.stringify(observation);
  }

  #numberOf(meter: Meter): number {
    const known = this.#meters.get(meter) ?? ++this.#metersSeen;
    this.#meters.set(meter, known);
    return known;
  }
}
