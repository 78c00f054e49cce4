import type { Effect } from "../fault/index.ts";
import type { Haste } from "../part/index.ts";
import type { Condition, Machine, Step } from "../sheet/index.ts";
import { Control } from "./control.ts";
import type { Live } from "./live.ts";
import type { Member, Picture, Run } from "./picture.ts";
import { type Settled, Settler } from "./settle.ts";

/** The house's word for "the mains plug is in". */
export const pluggedInput = "plugged";

const moments: readonly Haste[] = ["now", "seconds", "minutes"];

/** What the healthy machine's "of good" formulas give, by `${step}@${moment}`. */
export type GoodValues = ReadonlyMap<string, Float64Array>;

interface Album {
  readonly pictures: Map<string, Picture>;
  readonly reached: string[];
  readonly hunts: { step: string; moment: Haste; haste: Haste }[];
}

/** Runs a machine through its programme and its conditions; one of these serves every fault in turn. */
export class Programme {
  readonly #live: Live;
  readonly #machine: Machine;
  readonly #control = new Control();
  readonly #settler: Settler;
  #goods: GoodValues | undefined;

  constructor(live: Live) {
    this.#live = live;
    this.#machine = live.network.machine;
    this.#settler = new Settler(live, this.#control);
  }

  /** From now on formulas "of good" look here; until then they are worked out on the machine itself. */
  compareWith(goods: GoodValues): void {
    this.#goods = goods;
  }

  /** The whole programme with these effects, each condition after the step it follows. */
  run(effects: readonly Effect[]): Run {
    const album = this.#open(effects);
    for (const condition of this.#machine.conditions) {
      if (condition.after === undefined) this.#beside(condition, album);
    }
    for (const step of this.#machine.steps) {
      this.#step(step, album);
      for (const condition of this.#machine.conditions) {
        if (condition.after === step.id) this.#beside(condition, album);
      }
    }
    return this.#close(album);
  }

  /** Service test: plugged in (the first step), then one output commanded, whatever guards it has. */
  commanded(effects: readonly Effect[], output: number, id: string): Run {
    const album = this.#open(effects);
    const [first] = this.#machine.steps;
    if (first !== undefined) this.#step(first, album);
    this.#control.commanded = output;
    this.#look(id, album);
    return this.#close(album);
  }

  #open(effects: readonly Effect[]): Album {
    this.#live.load(effects);
    this.#control.reset();
    this.#settler.wouldOpen.clear();
    return { pictures: new Map(), reached: [], hunts: [] };
  }

  #close(album: Album): Run {
    return {
      pictures: album.pictures,
      said: this.#control.said.slice(),
      wouldOpen: [...this.#settler.wouldOpen].sort((a, b) => a - b),
      reached: album.reached,
      hunts: album.hunts,
    };
  }

  #step(step: Step, album: Album): void {
    const control = this.#control;
    control.step = step;
    const entered = !control.stopped && this.#enter(step);
    const woke = control.woke;
    this.#look(step.id, album);
    if (entered && (woke || control.lives(this.#live))) album.reached.push(step.id);
    if (!control.lives(this.#live)) control.stopped = true;
  }

  /** Asks what a step asks on entering, with everything settled and the outputs as they were. */
  #enter(step: Step): boolean {
    const control = this.#control;
    const live = this.#live;
    for (const [output, variable] of this.#machine.variables.entries()) {
      const goesOn = step.drives.some((drive) => drive.output === output);
      if (variable.role === "output" && !goesOn && !live.fixed[output]) live.variables[output] = 0;
    }
    this.#setGoods(step.id, "now");
    control.frozen = true;
    this.#settler.settle("now");
    control.frozen = false;
    if (!control.lives(live)) {
      control.stopped = control.woke;
      return !control.woke;
    }
    control.woke = true;
    const missing = [...step.entersIf, ...step.needs].find((ask) => !live.holds(ask.when));
    if (missing === undefined) return true;
    control.stopped = true;
    control.say(step.id, missing.says);
    return false;
  }

  /** Pictures at now, seconds, minutes and, after the time-outs, at the end. */
  #look(id: string, album: Album): void {
    let settled: Settled | undefined;
    let calm: Haste | undefined;
    for (const moment of moments) {
      this.#setGoods(id, moment);
      settled = this.#settler.settle(moment, calm);
      calm = settled.hunts === undefined ? moment : undefined;
      this.#paste(id, moment, settled, album);
    }
    if (settled === undefined) return;
    if (this.#timesOut(settled.members)) {
      this.#setGoods(id, "end");
      settled = this.#settler.settle("minutes");
    }
    album.pictures.set(`${id}@end`, { step: id, moment: "end", members: settled.members });
  }

  #paste(id: string, moment: Haste, settled: Settled, album: Album): void {
    album.pictures.set(`${id}@${moment}`, { step: id, moment, members: settled.members });
    if (settled.hunts !== undefined) album.hunts.push({ step: id, moment, haste: settled.hunts });
  }

  /** Looks at the time-outs, soonest first, in every member of the last picture; true when the programme stopped. */
  #timesOut(members: readonly Member[]): boolean {
    const control = this.#control;
    const live = this.#live;
    const { step } = control;
    if (step === undefined || control.stopped || control.commanded >= 0 || !control.lives(live)) return false;
    const lasts = (condition: Step["timeOuts"][number]["if"]): boolean =>
      members.every((member) => {
        live.place(member.states, member.variables);
        live.solve();
        return live.holds(condition);
      });
    const soonest = [...step.timeOuts].sort((a, b) => a.afterSeconds - b.afterSeconds);
    for (const timeOut of soonest) {
      if (!lasts(timeOut.if)) continue;
      for (const then of timeOut.then) {
        if (then.do === "say") control.say(step.id, then.says);
        else if (then.do !== "go on") control.stopped = true;
      }
      if (control.stopped) return true;
    }
    return false;
  }

  /** Looks at a condition beside the programme, then goes back to where the programme was. */
  #beside(condition: Condition, album: Album): void {
    const live = this.#live;
    const states = live.states.slice();
    const variables = live.variables.slice();
    const { stopped, woke } = this.#control;
    const saidBefore = this.#control.said.length;
    for (const { variable, to } of condition.set) live.hold(variable, to);
    if (this.#unplugged()) this.#forget();
    this.#look(condition.id, album);
    const end = album.pictures.get(`${condition.id}@end`);
    if (end !== undefined) album.pictures.set(condition.id, end);
    live.place(states, variables);
    this.#control.stopped = stopped;
    this.#control.woke = woke;
    this.#control.said.length = saidBefore;
  }

  #unplugged(): boolean {
    return this.#machine.variables.some(
      (variable, index) => variable.id === pluggedInput && this.#live.variables[index] === 0,
    );
  }

  /** With the plug out only those states stay that say they keep. */
  #forget(): void {
    const live = this.#live;
    this.#machine.stateSets.forEach((set, index) => {
      if (!set.keeps && !live.stuck[index]) live.states[index] = 0;
    });
  }

  #setGoods(id: string, moment: Haste | "end"): void {
    this.#live.goods = this.#goods?.get(`${id}@${moment}`);
  }
}
