import type { Evaluate, Haste } from "../part/index.ts";
import type { Control } from "./control.ts";
import type { Live } from "./live.ts";
import { hastes, type Settled, type Tick, Ticks } from "./ticks.ts";

/** Ticks after which a machine that neither settles nor repeats is taken as hunting over its later half. */
const mostTicks = 120;
/** Equal parts of a ramp looked at before a crossing is closed in on, and halvings of the part that holds it. */
const rampParts = 8;
const rampHalvings = 40;
/**
 * A guard without hysteresis switches back at once; it is then given this much play (a share of the value), so that
 * the time it spends on either side follows the speed of either ramp.
 */
const play = 1e-6;

interface Move {
  readonly set: number;
  readonly from: readonly number[] | undefined;
  readonly to: number;
  readonly when: Evaluate;
}

/**
 * Lets a machine move until nothing is due: contacts and outputs at once, rotors in seconds, heat and water in minutes.
 * Everything due at the fastest haste acts together; then all is solved again.
 */
export class Settler {
  readonly #live: Live;
  readonly #control: Control;
  readonly #moves: readonly (readonly Move[])[];
  readonly #permanent: readonly (readonly Move[])[];
  readonly #outputs: readonly number[];
  readonly #secondsWorld: readonly number[];
  readonly #minutesWorld: readonly number[];
  readonly #due: Int16Array;
  readonly #wanted: Float64Array;
  readonly #old: Float64Array;
  readonly #target: Float64Array;
  readonly #ticks: Ticks;
  /** Parts whose permanent protectors would have opened. */
  readonly wouldOpen = new Set<number>();

  constructor(live: Live, control: Control) {
    const { machine } = live.network;
    this.#live = live;
    this.#control = control;
    const of = (haste: Haste, permanent: boolean): Move[] =>
      machine.stateSets.flatMap((states, set) =>
        states.moves
          .filter((move) => move.takes === haste && move.permanent === permanent)
          .map(({ from, to, when }) => ({ set, from, to, when })),
      );
    this.#moves = hastes.map((haste) => of(haste, false));
    this.#permanent = hastes.map((haste) => of(haste, true));
    this.#outputs = machine.variables.flatMap((variable, index) => (variable.role === "output" ? [index] : []));
    const world = (haste: Haste) => machine.world.flatMap((rule, index) => (rule.takes === haste ? [index] : []));
    this.#secondsWorld = world("seconds");
    this.#minutesWorld = world("minutes");
    this.#ticks = new Ticks(machine);
    this.#due = new Int16Array(machine.stateSets.length).fill(-1);
    this.#wanted = new Float64Array(machine.variables.length);
    this.#old = new Float64Array(machine.world.length);
    this.#target = new Float64Array(machine.world.length);
  }

  /**
   * Runs until nothing up to this haste is due, or until a round repeats. `calm`: the haste up to which it was just seen
   * that nothing is due, with nothing changed since.
   */
  settle(upto: Haste, calm?: Haste): Settled {
    const slowest = hastes.indexOf(upto);
    const calmTo = calm === undefined ? -1 : hastes.indexOf(calm);
    for (let count = 0; ; count++) {
      this.#live.solve();
      const tick = this.#ticks.keep(count, this.#live, this.#control.stopped);
      if (!this.#act(tick, count === 0 ? calmTo + 1 : 0, slowest)) {
        return { members: [{ weight: 1, states: tick.states.slice(), variables: tick.variables.slice() }] };
      }
      const first = this.#ticks.seenBefore(count);
      if (first < 0 && count < mostTicks) continue;
      this.#live.solve();
      return this.#ticks.round(first < 0 ? mostTicks >> 1 : first, count);
    }
  }

  /** Applies all that is due at the first of these hastes that has anything; false when nothing is due. */
  #act(tick: Tick, fastest: number, slowest: number): boolean {
    tick.lasts = 1;
    for (tick.haste = fastest; tick.haste <= slowest; tick.haste++) {
      this.#notePermanent(tick.haste);
      if (tick.haste === 0 && this.#actNow()) return true;
      if (tick.haste === 1 && this.#actSeconds()) return true;
      if (tick.haste === 2) {
        tick.lasts = this.#actMinutes();
        if (tick.lasts > 0) return true;
      }
    }
    return false;
  }

  #actNow(): boolean {
    const live = this.#live;
    const moved = this.#findMoves(0);
    const says = this.#control.stopsFor(live);
    if (says !== undefined) {
      this.#control.stopped = true;
      if (says !== "") this.#control.say(this.#control.step?.id ?? "", says);
    }
    if (this.#control.step !== undefined && this.#control.lives(live)) this.#control.woke = true;
    let switched = false;
    for (const output of this.#outputs) this.#wanted[output] = this.#control.wants(output, live);
    for (const output of this.#outputs) {
      if (live.fixed[output] || live.variables[output] === this.#wanted[output]) continue;
      live.variables[output] = this.#wanted[output];
      switched = true;
    }
    if (moved) this.#applyMoves();
    return moved || switched || says !== undefined;
  }

  #actSeconds(): boolean {
    const moved = this.#findMoves(1);
    const changed = this.#moveWorld(this.#secondsWorld);
    if (moved) this.#applyMoves();
    return moved || changed;
  }

  /**
   * One straight ramp of all slow world values together, up to the first crossing, which acts alone.
   * Gives the share of the ramp travelled; 0 when nothing is due.
   */
  #actMinutes(): number {
    const live = this.#live;
    const { world } = live.network.machine;
    for (const rule of this.#minutesWorld) this.#old[rule] = live.variables[world[rule].variable];
    const changed = this.#moveWorld(this.#minutesWorld);
    for (const rule of this.#minutesWorld) this.#target[rule] = live.variables[world[rule].variable];
    this.#ramp(0);
    const moved = this.#findMoves(2);
    if (!changed) {
      if (moved) this.#applyMoves();
      return moved ? 1 : 0;
    }
    const waiting = this.#due.slice();
    this.#due.fill(-1);
    const stop = this.#firstCrossing(waiting);
    if (stop === undefined) {
      this.#ramp(1);
      this.#notePermanent(2);
      this.#due.set(waiting);
      this.#applyMoves();
      return 1;
    }
    this.#ramp(stop);
    this.#notePermanent(2);
    this.#findMoves(2, waiting);
    this.#applyMoves();
    return Math.max(stop, play / this.#rampSpeed());
  }

  /** Largest change over the whole ramp, as a share of the value it starts from. */
  #rampSpeed(): number {
    let speed = 0;
    for (const rule of this.#minutesWorld) {
      const from = this.#old[rule];
      speed = Math.max(speed, Math.abs(this.#target[rule] - from) / Math.max(1, Math.abs(from)));
    }
    return speed;
  }

  /** Where along the ramp something that was not due before it becomes due; undefined when nothing does. */
  #firstCrossing(waiting: Int16Array): number | undefined {
    for (let part = 1; part <= rampParts; part++) {
      if (!this.#crosses(part / rampParts, waiting)) continue;
      let before = (part - 1) / rampParts;
      let after = part / rampParts;
      for (let halving = 0; halving < rampHalvings; halving++) {
        const middle = (before + after) / 2;
        if (this.#crosses(middle, waiting)) after = middle;
        else before = middle;
      }
      return after;
    }
    return undefined;
  }

  #crosses(share: number, waiting: Int16Array): boolean {
    this.#ramp(share);
    const live = this.#live;
    if (this.#anyDue(0) || this.#anyDue(1) || this.#anyDue(2, waiting)) return true;
    if (this.#control.stopsFor(live) !== undefined) return true;
    return this.#outputs.some(
      (output) => !live.fixed[output] && this.#control.wants(output, live) !== live.variables[output],
    );
  }

  #ramp(share: number): void {
    const { variables, network } = this.#live;
    for (const rule of this.#minutesWorld) {
      const { variable } = network.machine.world[rule];
      const from = this.#old[rule];
      const to = this.#target[rule];
      variables[variable] = share === 1 ? to : from + share * (to - from);
    }
  }

  /** Gives world values their new ones, in order, each seeing those before it; true when one changed. */
  #moveWorld(rules: readonly number[]): boolean {
    const live = this.#live;
    let changed = false;
    for (const index of rules) {
      const rule = live.network.machine.world[index];
      if (live.fixed[rule.variable]) continue;
      const before = live.variables[rule.variable];
      let after = rule.is(live);
      if (rule.keeps === "lowest") after = Math.min(before, after);
      if (rule.keeps === "highest") after = Math.max(before, after);
      if (!Number.isFinite(after)) continue;
      if (Math.abs(after - before) <= 1e-9 * Math.max(1, Math.abs(before))) continue;
      live.variables[rule.variable] = after;
      changed = true;
    }
    return changed;
  }

  #isDue(move: Move): boolean {
    const live = this.#live;
    const state = live.states[move.set];
    if (live.stuck[move.set] || state === move.to) return false;
    if (move.from !== undefined && !move.from.includes(state)) return false;
    return live.holds(move.when);
  }

  #anyDue(haste: number, except?: Int16Array): boolean {
    return this.#moves[haste].some((move) => except?.[move.set] !== move.to && this.#isDue(move));
  }

  /** Marks the moves due at this haste; the first of a set wins. */
  #findMoves(haste: number, except?: Int16Array): boolean {
    let found = false;
    for (const move of this.#moves[haste]) {
      if (this.#due[move.set] >= 0 || except?.[move.set] === move.to || !this.#isDue(move)) continue;
      this.#due[move.set] = move.to;
      found = true;
    }
    return found;
  }

  #applyMoves(): void {
    const { states } = this.#live;
    for (let set = 0; set < states.length; set++) {
      if (this.#due[set] >= 0) states[set] = this.#due[set];
    }
    this.#due.fill(-1);
  }

  #notePermanent(haste: number): void {
    for (const move of this.#permanent[haste]) {
      if (this.#isDue(move)) this.wouldOpen.add(this.#live.network.machine.stateSets[move.set].part);
    }
  }
}
