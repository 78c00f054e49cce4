import type { Haste } from "../part/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Live } from "./live.ts";
import type { Member } from "./picture.ts";

/** World values are the same within this share when a picture comes round again ("two digits"). */
const sameWorld = 0.01;

/** From the fastest to the slowest. */
export const hastes: readonly Haste[] = ["now", "seconds", "minutes"];

/** A machine between two changes. */
export interface Tick {
  readonly states: Uint8Array;
  readonly variables: Float64Array;
  stopped: boolean;
  haste: number;
  /** How long it lasts, in units of a whole ramp. */
  lasts: number;
}

/** What a machine came to. */
export interface Settled {
  readonly members: readonly Member[];
  /** The slowest haste of the round a hunt goes; absent when the machine stands still. */
  readonly hunts?: Haste;
}

/** The way a machine has come since it was last at rest, to see when it goes round. */
export class Ticks {
  readonly #ticks: Tick[] = [];
  readonly #outputs: readonly number[];
  readonly #world: Machine["world"];

  constructor({ variables, world }: Machine) {
    this.#outputs = variables.flatMap(({ role }, index) => (role === "output" ? [index] : []));
    this.#world = world;
  }

  /** Notes the machine as tick number `count`; how soon and how long it acts next is for the caller to fill in. */
  keep(count: number, live: Live, stopped: boolean): Tick {
    let tick = this.#ticks[count];
    if (tick === undefined) {
      tick = { states: live.states.slice(), variables: live.variables.slice(), stopped: false, haste: 0, lasts: 1 };
      this.#ticks.push(tick);
    } else {
      tick.states.set(live.states);
      tick.variables.set(live.variables);
    }
    tick.stopped = stopped;
    return tick;
  }

  /**
   * First tick of a round that ends where it began, or -1: the same states, outputs, haste of what is due next, and
   * world. Creeping world values alone make no round.
   */
  seenBefore(count: number): number {
    const now = this.#ticks[count];
    let moved = false;
    for (let before = count - 1; before >= 0; before--) {
      const tick = this.#ticks[before];
      if (!this.#sameSwitching(tick, now)) moved = true;
      else if (moved && this.#sameWorld(tick, now)) return before;
    }
    return -1;
  }

  #sameSwitching(one: Tick, other: Tick): boolean {
    if (one.stopped !== other.stopped || one.haste !== other.haste) return false;
    for (let set = 0; set < one.states.length; set++) if (one.states[set] !== other.states[set]) return false;
    return this.#outputs.every((output) => one.variables[output] === other.variables[output]);
  }

  #sameWorld(one: Tick, other: Tick): boolean {
    return this.#world.every(({ variable }) => {
      const a = one.variables[variable];
      const b = other.variables[variable];
      return Math.abs(a - b) <= sameWorld * Math.max(Math.abs(a), Math.abs(b));
    });
  }

  /** The lasting members of a round: those whose next change is of its slowest haste, by the time they last. */
  round(first: number, end: number): Settled {
    const round = this.#ticks.slice(first, end);
    const slowest = Math.max(...round.map((tick) => tick.haste));
    const lasting = round.filter((tick) => tick.haste === slowest);
    const whole = lasting.reduce((sum, tick) => sum + tick.lasts, 0);
    const members = lasting.map((tick) => ({
      weight: tick.lasts / whole,
      states: tick.states.slice(),
      variables: tick.variables.slice(),
    }));
    return { members, hunts: hastes[slowest] };
  }
}
