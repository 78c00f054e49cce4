import type { Effect } from "../fault/index.ts";
import type { Haste } from "../part/index.ts";
import { type Condition, DRAIN_STEP, type Machine, type Step } from "../sheet/index.ts";
import { Control } from "./control.ts";
import type { Live, Looked } from "./live.ts";
import type { Member, Picture, Run } from "./picture.ts";
import { Pictures } from "./pictures.ts";
import { Settler } from "./settle.ts";
import { hastes, type Settled } from "./ticks.ts";

/** The house's word for "the mains plug is in". */
export const pluggedInput = "plugged";

/** What the healthy machine's "of good" formulas give, by `${step}@${moment}`. */
export type GoodValues = ReadonlyMap<string, Float64Array>;

/** Where the programme stood when a step was over. */
interface Bookmark {
  readonly step: Step | undefined;
  readonly states: Uint8Array;
  readonly variables: Float64Array;
  readonly stopped: boolean;
  readonly woke: boolean;
}

/** A run, with what it takes to look at the conditions beside it under a fault that runs alike. */
export interface Ran {
  readonly run: Run;
  readonly pictures: readonly (readonly [string, Picture])[];
  readonly bookmarks: readonly Bookmark[];
}

/** Runs a machine through its programme and its conditions; one of these serves every fault in turn. */
export class Programme {
  readonly #live: Live;
  readonly #machine: Machine;
  readonly #control = new Control();
  readonly #settler: Settler;
  #goods: GoodValues | undefined;
  #loaded: readonly Effect[] | undefined;
  #hunts: { readonly step: string; readonly moment: Haste; readonly haste: Haste }[] = [];

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
  run(effects: readonly Effect[]): Ran {
    this.#open(effects);
    const pictures = new Pictures();
    const reached: string[] = [];
    const bookmarks = [this.#bookmark(undefined)];
    for (const step of this.#machine.steps) {
      if (this.#step(step, pictures)) reached.push(step.id);
      bookmarks.push(this.#bookmark(step));
    }
    const taken = [...pictures];
    this.#lookLater(bookmarks, effects, pictures);
    return { run: this.#close(pictures, reached), pictures: taken, bookmarks };
  }

  /** The run of other effects that are known to run alike; conditions beside the programme are their own. */
  alike({ run, pictures: taken, bookmarks }: Ran, effects: readonly Effect[]): Run {
    const pictures = new Pictures(taken);
    this.#lookLater(bookmarks, effects, pictures);
    return { ...run, pictures };
  }

  /** Service test: plugged in (the first step), then one output commanded, whatever guards it has. */
  commanded(effects: readonly Effect[], output: number, id: string): Run {
    this.#open(effects);
    const pictures = new Pictures();
    const [first] = this.#machine.steps;
    const reached = first !== undefined && this.#step(first, pictures) ? [first.id] : [];
    this.#control.commanded = output;
    this.#look(id, pictures);
    return this.#close(pictures, reached);
  }

  /** What was looked at in the run just made. */
  get looked(): Looked {
    return this.#live.looked;
  }

  #open(effects: readonly Effect[]): void {
    this.#live.load(effects);
    this.#live.looked.elements.fill(0);
    this.#live.looked.nodes.fill(0);
    this.#loaded = effects;
    this.#control.reset();
    this.#settler.wouldOpen.clear();
    this.#hunts = [];
  }

  #close(pictures: Pictures, reached: readonly string[]): Run {
    return {
      pictures,
      said: this.#control.said.slice(),
      wouldOpen: [...this.#settler.wouldOpen].sort((a, b) => a - b),
      reached,
      hunts: this.#hunts,
    };
  }

  /** Runs one step; true when it was come to. */
  #step(step: Step, pictures: Pictures): boolean {
    const control = this.#control;
    const drainsOnly = control.drains && step.id === DRAIN_STEP;
    if (drainsOnly) control.stopped = false;
    control.step = step;
    const entered = !control.stopped && this.#enter(step);
    const woke = control.woke;
    this.#look(step.id, pictures);
    const lives = control.lives(this.#live);
    if (!lives) control.drains = false;
    if (!lives || drainsOnly) control.stopped = true;
    return entered && (woke || lives);
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
  #look(id: string, pictures: Map<string, Picture>): void {
    let settled: Settled = { members: [] };
    let calm: Haste | undefined;
    for (const moment of hastes) {
      this.#setGoods(id, moment);
      settled = this.#settler.settle(moment, calm);
      calm = settled.hunts === undefined ? moment : undefined;
      pictures.set(`${id}@${moment}`, { step: id, moment, ...settled });
      if (settled.hunts !== undefined) this.#hunts.push({ step: id, moment, haste: settled.hunts });
    }
    if (this.#timesOut(settled.members)) {
      this.#setGoods(id, "end");
      settled = this.#settler.settle("minutes");
    }
    pictures.set(`${id}@end`, { step: id, moment: "end", ...settled });
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
        if (then.do === "drain") control.drains = true;
      }
      if (control.stopped) return true;
    }
    return false;
  }

  /** Notes where the programme stands, for the conditions that follow this step. */
  #bookmark(step: Step | undefined): Bookmark {
    const { stopped, woke } = this.#control;
    return { step, states: this.#live.states.slice(), variables: this.#live.variables.slice(), stopped, woke };
  }

  /** Conditions beside the programme are looked at when somebody asks for them. */
  #lookLater(bookmarks: readonly Bookmark[], effects: readonly Effect[], pictures: Pictures): void {
    for (const bookmark of bookmarks) {
      for (const condition of this.#machine.conditions) {
        if (condition.after !== bookmark.step?.id) continue;
        pictures.addLater(condition.id, () => this.#beside(condition, bookmark, effects));
      }
    }
  }

  /** Looks at a condition beside the programme. */
  #beside({ id, set }: Condition, bookmark: Bookmark, effects: readonly Effect[]): Map<string, Picture> {
    const live = this.#live;
    const control = this.#control;
    if (this.#loaded !== effects) this.#open(effects);
    else live.loadAgain(effects);
    control.reset();
    live.place(bookmark.states, bookmark.variables);
    control.step = bookmark.step;
    control.stopped = bookmark.stopped;
    control.woke = bookmark.woke;
    for (const { variable, to } of set) live.hold(variable, to);
    if (this.#unplugged()) this.#forget();
    this.#hunts = [];
    const pictures = new Map<string, Picture>();
    this.#look(id, pictures);
    const end = pictures.get(`${id}@end`);
    if (end !== undefined) pictures.set(id, end);
    return pictures;
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
