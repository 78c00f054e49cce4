import type { JobEvent, MeasuredReading, ReadingSet } from "../ledger/index.ts";
import type { Meter } from "../meter/index.ts";
import { accessChain, instrumentFor } from "../plan/index.ts";
import type { ProbeState } from "../predict/index.ts";
import type { Course, Shop } from "../remedy/index.ts";
import type { Access, Machine } from "../sheet/index.ts";
import type { Observation, Witness } from "../sign/index.ts";
import type { HiddenMachine } from "./hidden-machine.ts";
import { type History, JobPaper, type Remedy } from "./history.ts";

/** What a technician has: a sheet's machine, a shop with its costs, instruments. */
export interface Bench {
  readonly machine: Machine;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
}

type ReadingAsked = Extract<Observation, { kind: "reading" }>;

/** Hands at a hidden machine: every act is done to it, and written down as an event of the job. */
export class Hands {
  readonly bench: Bench;
  readonly hidden: HiddenMachine;
  readonly #paper = new JobPaper();
  readonly #remedies = new Map<string, Remedy>();
  readonly #groups: ReadonlyMap<string, Access>;
  readonly #open = new Set<string>();
  #energised = true;
  #provedDead = false;
  #run = 0;

  constructor(bench: Bench, hidden: HiddenMachine) {
    this.bench = bench;
    this.hidden = hidden;
    this.#groups = new Map(bench.machine.access.map((group) => [group.id, group]));
  }

  get events(): readonly JobEvent[] {
    return this.#paper.events;
  }

  isOpen(access: string): boolean {
    return this.#open.has(access);
  }

  /** Asks signs of one witness; those that the machine does not have are passed over. */
  ask(signs: readonly string[], witness: Witness): number {
    if (witness === "seen") this.energise();
    const answers = signs.flatMap((sign) => {
      const answer = this.hidden.answer(sign, witness, this.#runName());
      return answer === undefined ? [] : [{ sign, answer }];
    });
    if (answers.length > 0) this.#paper.write({ kind: witness, answers });
    return answers.length;
  }

  /** Covers off down to this one, plug out and proved dead. */
  open(access: string | undefined): void {
    if (access === undefined) return;
    this.uncover(access);
    this.isolate();
  }

  /** Covers off down to this one with the plug out; it is not proved dead yet. */
  uncover(access: string): void {
    for (const { id } of accessChain(access, this.#groups)) {
      if (this.#open.has(id)) continue;
      this.#switchOff();
      this.#open.add(id);
      this.#paper.write({ kind: "opened", access: [id] });
    }
  }

  close(access: string): void {
    if (this.#open.delete(access)) this.#paper.write({ kind: "closed", access: [access] });
  }

  /** Plug out; nothing is proved by that. */
  unplug(): void {
    if (!this.#energised) return;
    this.#switchOff();
    this.#paper.write({ kind: "unplugged" });
  }

  isolate(): void {
    this.#switchOff();
    if (this.#provedDead) return;
    this.#provedDead = true;
    this.#paper.write({ kind: "isolated" });
  }

  energise(): void {
    if (this.#energised) return;
    this.#energised = true;
    this.#provedDead = false;
    this.#run++;
    this.#paper.write({ kind: "energised" });
  }

  look(at: string, mode?: string): "bad" | "good" {
    const found = this.hidden.look(at, mode);
    this.#paper.write({ kind: "looked", at, found, ...(mode === undefined ? {} : { mode }) });
    return found;
  }

  /** Takes readings, those of one set-up in one go; gives those that this machine could be asked. */
  measure(asked: readonly ReadingAsked[]): readonly ReadingAsked[] {
    const taken: ReadingAsked[] = [];
    let together: { key: string; set: ReadingSet; readings: MeasuredReading[] } | undefined;
    const write = (): void => {
      if (together !== undefined)
        this.#paper.write({ kind: "measured", set: together.set, readings: together.readings });
      together = undefined;
    };
    for (const one of asked) {
      const { probe, meter } = one;
      const live = probe.state.kind === "live";
      const points = probe.from !== undefined && probe.measure === undefined;
      if (live && !points) this.energise();
      else if (live) this.#runClipped();
      const shown = this.hidden.read(probe, meter, this.#runName());
      if (shown === undefined) continue;
      taken.push({ ...one, shown });
      const set = setOf(probe.state, meter);
      const key = `${JSON.stringify([set.state, set.pulled, set.freed, [...set.hands]])} ${meter.id}`;
      if (together?.key !== key) write();
      together ??= { key, set, readings: [] };
      together.readings.push({
        quantity: probe.quantity,
        ...(probe.from === undefined ? {} : { from: probe.from }),
        ...(probe.to === undefined ? {} : { to: probe.to }),
        joinedWith: probe.joinedWith ?? [],
        ...(probe.measure === undefined ? {} : { measure: probe.measure }),
        shown,
      });
    }
    write();
    return taken;
  }

  count({ probe, of }: Extract<Observation, { kind: "count" }>): void {
    const good = this.hidden.count(probe, of);
    if (good === undefined || probe.from === undefined || probe.to === undefined) return;
    const meter = instrumentFor(probe.quantity, this.bench.shop.bag, this.bench.meters);
    this.#paper.write({
      kind: "counted",
      set: setOf(probe.state, meter),
      from: probe.from,
      to: probe.to,
      good,
      of,
    });
  }

  /** Does a remedy, whatever cover it is behind. */
  mend(course: Course, access: string | undefined): void {
    this.open(access);
    const right = this.hidden.mend(course);
    const { on, remedy, price } = course;
    const event = this.#paper.write({ kind: "did", on, remedy, price });
    this.#remedies.set(event.id, { course, right });
  }

  why(protector: string, reason: string): void {
    this.#paper.write({ kind: "why", protector, reason });
  }

  cannot(step: string): void {
    this.#paper.write({ kind: "cannot", step });
  }

  end(ended: History["ended"]): History {
    return {
      events: this.events,
      remedies: this.#remedies,
      ended,
      cameBack: ended === "mended" && this.hidden.comesBack(),
    };
  }

  #runClipped(): void {
    this.#run++;
    this.#energised = false;
    this.#provedDead = false;
  }

  #switchOff(): void {
    if (this.#energised) this.#provedDead = false;
    this.#energised = false;
  }

  #runName(): string {
    return String(this.#run);
  }
}

function setOf(state: ProbeState, meter: Meter): ReadingSet {
  const dead = state.kind === "dead" ? state : undefined;
  return {
    state: state.kind === "dead" ? { kind: "plug out" } : state,
    pulled: dead?.pulled ?? [],
    freed: dead?.freed ?? [],
    hands: dead?.hands ?? new Map(),
    meter: meter.id,
    leads: "nulled",
  };
}
