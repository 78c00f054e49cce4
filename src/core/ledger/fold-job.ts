import type { Checked } from "../issue/index.ts";
import { quantityOf } from "../meter/index.ts";
import { ARRIVAL, instrumentFor, type Repair, type WorkState } from "../plan/index.ts";
import { type Probe, type ProbeState, probeOf } from "../predict/index.ts";
import type { Shop } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Job, JobEvent, Measured, MeasuredReading, Meters, ReadingSet } from "./job.ts";
import { withdrawnEvents } from "./known.ts";
import { type MachineNames, namesOf } from "./machine-names.ts";
import { NameBook } from "./name-book.ts";
import { NameCheck } from "./name-check.ts";
import { ALL } from "./put-back.ts";

/** What a job comes to: what was learned, in order, and where the work stands. */
export interface JobState {
  /** Everything that moves the odds, with the event it came from. Answered slots are not here: see `knownAnswers`. */
  readonly observations: readonly Noted[];
  /** Remedies carried out, each with the number of observations that came before it. */
  readonly repairs: readonly (Repair & { readonly after: number })[];
  readonly work: WorkState;
  /** Ids of events that were taken back. */
  readonly withdrawn: ReadonlySet<string>;
}

export interface Noted {
  readonly event: string;
  readonly observation: Observation;
}

/** Minutes that no sheet gives, for jobs whose events carry no time. */
const REPAIR_MINUTES = 20;

/**
 * Folds a job's events into observations and the state of the work. Pure: the same events give the same answer.
 *
 * @param machines  all machines the sheet may turn out to be (`Case.candidates`): names are looked up in any of them
 * @param meters    instruments by id
 * @returns         the state, or every name that the sheet does not know
 */
export function foldJob(
  job: Job,
  machines: readonly Machine[],
  shop: Shop,
  meters: Meters,
  file?: string,
): Checked<JobState> {
  return new Fold(job, namesOf(machines), shop, meters, file).conclude();
}

class Fold {
  readonly #check: NameCheck;
  readonly #observations: Noted[] = [];
  readonly #repairs: (Repair & { after: number })[] = [];
  readonly #withdrawn: ReadonlySet<string>;
  readonly #job: Job;
  readonly #shop: Shop;
  readonly #meters: Meters;
  #work: WorkState = ARRIVAL;

  constructor(job: Job, names: MachineNames, shop: Shop, meters: Meters, file: string | undefined) {
    this.#job = job;
    this.#check = new NameCheck(names, file);
    this.#shop = shop;
    this.#meters = meters;
    this.#withdrawn = withdrawnEvents(job);
  }

  conclude(): Checked<JobState> {
    const ids = new Set(this.#job.events.map((event) => event.id));
    for (const event of this.#job.events) {
      if (event.kind === "withdraws" && !ids.has(event.event)) {
        const count = `a number from 1 to ${ids.size}: events count from the top`;
        this.#check.refuse(event, "job.withdraws", event.event.slice(1), count);
      }
      if (this.#withdrawn.has(event.id)) continue;
      const before = this.#work.minutes;
      this.#take(event);
      if (event.atMinutes !== undefined) this.#work = { ...this.#work, minutes: Math.max(before, event.atMinutes) };
    }
    return this.#check.issues.conclude(() => ({
      observations: this.#observations,
      repairs: this.#repairs,
      work: { ...this.#work, repairs: this.#repairs },
      withdrawn: this.#withdrawn,
    }));
  }

  #take(event: JobEvent): void {
    const minutes = this.#shop.minutes;
    switch (event.kind) {
      case "told":
      case "heard":
      case "seen":
        for (const told of event.answers) {
          const known = this.#check.sign(event, told.sign, told.answer);
          if (known === undefined) continue;
          this.#note(event, { kind: "sign", ...known, witness: event.kind });
          this.#add({ signs: withMember(this.#work.signs, `${event.kind}:${known.sign}`) });
        }
        if (event.kind === "seen") this.#add({ energy: "live", provedDead: false });
        this.#spend(event.kind === "seen" ? minutes.runStep : minutes.ask * event.answers.length);
        return;
      case "answered":
        for (const { slot } of event.slots) this.#add({ slots: withMember(this.#work.slots, slot) });
        this.#spend(minutes.look);
        return;
      case "looked": {
        const at = this.#check.part(event, event.at);
        if (at === undefined) return;
        const mode = event.mode === undefined ? {} : { mode: event.mode };
        this.#note(event, { kind: "look", at, found: event.found, ...mode });
        this.#add({ looks: withMember(this.#work.looks, event.mode === undefined ? at : `${at}/${event.mode}`) });
        if (event.found === "bad") this.#add({ foundBad: withMember(this.#work.foundBad, at) });
        this.#spend(minutes.look);
        return;
      }
      case "opened":
        for (const cover of this.#covers(event, event.access)) this.#open(cover);
        return;
      case "closed":
        for (const cover of this.#covers(event, event.access)) this.#close(cover);
        return;
      case "unplugged":
        if (this.#work.energy === "live") this.#add({ energy: "plug out", provedDead: false, clipped: new Set() });
        return;
      case "isolated":
        this.#add({ energy: "plug out", provedDead: true, clipped: new Set() });
        this.#spend(minutes.proveDead);
        return;
      case "energised":
        this.#add({ energy: "live", provedDead: false });
        this.#spend(minutes.energise);
        return;
      case "measured":
        this.#measured(event, event);
        return;
      case "counted":
        this.#counted(event, event.set, event);
        return;
      case "cannot":
        this.#add({ cannot: withMember(this.#work.cannot, event.step) });
        return;
      case "did":
        this.#did(event, event);
        return;
      case "why": {
        const protector = this.#check.part(event, event.protector);
        if (protector === undefined) return;
        const reason = this.#check.names.parts.mean(event.reason);
        this.#add({ whys: new Map(this.#work.whys).set(protector, reason.is === "one" ? reason.id : event.reason) });
        return;
      }
      case "operated":
      case "loaded":
        this.#check.part(event, event.on);
        return;
      case "ticked": {
        const items = event.items.filter((item) => item !== ALL);
        const { putsBack } = this.#check.names;
        const back = this.#check.all(event, "job.unknown-tick", items, putsBack, "a thing to be put back") ?? [];
        const isAll = items.length < event.items.length;
        this.#add({ pulled: new Set([...this.#work.pulled].filter((plug) => !isAll && !back.includes(plug))) });
        return;
      }
      case "heated":
      case "logged":
      case "safety":
      case "tested":
      case "checked":
      case "unproved":
      case "left":
      case "notice":
      case "visit":
      case "withdraws":
      case "note":
      case "unknown":
        return;
    }
  }

  #measured(event: JobEvent, measured: Measured): void {
    const state = this.#state(event, measured.set);
    for (const reading of measured.readings) {
      const probe = this.#probe(event, reading, state);
      const meter = this.#meter(event, measured.set, probe?.quantity);
      if (probe === undefined || meter === undefined) continue;
      if (reading.shown.kind === "count") {
        this.#note(event, { kind: "count", probe, good: reading.shown.good, of: reading.shown.of });
        continue;
      }
      this.#note(event, {
        kind: "reading",
        probe,
        meter,
        leads: measured.set.leads,
        shown: reading.shown,
        ...(measured.set.degrees === undefined ? {} : { degrees: measured.set.degrees }),
      });
      this.#took(probe, meter.id);
    }
    this.#after(measured.set, state);
  }

  #counted(event: JobEvent, set: ReadingSet, count: { from?: string; to?: string; good: number; of: number }): void {
    const state = this.#state(event, set);
    const ends = this.#ends(event, count);
    if (count.good > count.of) {
      this.#check.refuse(event, "job.count", `${count.good} good of ${count.of}`, `at most ${count.of} good`);
      return;
    }
    if (ends === undefined) return;
    // With power on a contact is counted by the volts over it, or behind it.
    const probe = probeOf({ quantity: state.kind === "live" ? "volts" : "ohms", ...ends, state });
    this.#note(event, { kind: "count", probe, good: count.good, of: count.of });
    this.#add({ probes: withMember(this.#work.probes, `count ${probe.id}`) });
    this.#spend(count.of * this.#shop.minutes.operation);
    this.#after(set, state);
  }

  #probe(event: JobEvent, reading: MeasuredReading, state: ProbeState): Probe | undefined {
    if (reading.measure !== undefined) return this.#measure(event, reading.measure, state);
    const ends = this.#ends(event, reading);
    const joined = this.#check.points(event, reading.joinedWith);
    if (ends === undefined || joined === undefined) return undefined;
    return probeOf({
      quantity: reading.quantity,
      state,
      ...ends,
      ...(joined.length === 0 ? {} : { joinedWith: joined }),
    });
  }

  /** A measurement that a cause has of its own. */
  #measure(event: JobEvent, asked: { cause: string; id: string }, state: ProbeState): Probe | undefined {
    const names = this.#check.names;
    const cause = this.#check.known(event, "job.unknown-cause", asked.cause, names.causes, "a cause of this sheet");
    const known = cause === undefined ? undefined : names.measures.get(cause);
    if (cause === undefined || known === undefined) return undefined;
    const id = this.#check.known(event, "job.unknown-measurement", asked.id, known.names, `a measurement of ${cause}`);
    const unit = id === undefined ? undefined : known.units.get(id);
    if (id === undefined || unit === undefined) return undefined;
    return probeOf({ quantity: quantityOf(unit), measure: { cause, id }, state });
  }

  #ends(event: JobEvent, { from, to }: { from?: string; to?: string }): { from?: string; to?: string } | undefined {
    const first = this.#check.points(event, from === undefined ? [] : [from]);
    const second = this.#check.points(event, to === undefined ? [] : [to]);
    if (first === undefined || second === undefined) return undefined;
    return {
      ...(first[0] === undefined ? {} : { from: first[0] }),
      ...(second[0] === undefined ? {} : { to: second[0] }),
    };
  }

  #state(event: JobEvent, set: ReadingSet): ProbeState {
    const check = this.#check;
    const { names } = check;
    const pulled =
      check.all(event, "job.unknown-connector", set.pulled, names.plugs, "a connector of this sheet") ?? [];
    const freed = check.all(event, "job.unknown-part", set.freed, names.parts, "a part of this sheet") ?? [];
    const hands = [...set.hands].flatMap(([input, value]) => {
      const id = check.known(event, "job.unknown-input", input, names.inputs, "an input of this sheet");
      return id === undefined ? [] : [[id, value] as const];
    });
    if (set.state.kind === "bench") return { kind: "bench" };
    if (set.state.kind === "plug out") return { kind: "dead", pulled, freed, hands: new Map(hands) };
    const named = (name: string | undefined, code: string, book: NameBook, expected: string): string | undefined =>
      name === undefined ? undefined : check.known(event, code, name, book, expected);
    const step = named(set.state.step, "job.unknown-step", names.steps, "a step of the programme");
    const condition = named(set.state.condition, "job.unknown-condition", names.conditions, "a condition");
    const command = named(set.state.command, "job.unknown-output", names.outputs, "an output");
    return {
      kind: "live",
      ...(step === undefined ? {} : { step }),
      ...(condition === undefined ? {} : { condition }),
      ...(command === undefined ? {} : { command }),
    };
  }

  #meter(event: JobEvent, set: ReadingSet, quantity: Probe["quantity"] | undefined) {
    if (quantity === undefined) return undefined;
    if (set.meter === undefined) return instrumentFor(quantity, this.#shop.bag, this.#meters);
    const instruments = new NameBook([...this.#meters].map(([id, { says }]) => [id, says]));
    const id = this.#check.known(event, "job.unknown-meter", set.meter, instruments, "a meter by name");
    const meter = id === undefined ? undefined : this.#meters.get(id);
    if (meter === undefined) return undefined;
    if (!meter.ranges.some((range) => range.quantity === quantity)) {
      return this.#check.refuse(
        event,
        "job.wrong-meter",
        `"${set.meter}" for ${quantity}`,
        `a meter that reads ${quantity}`,
      );
    }
    return meter;
  }

  #took(probe: Probe, meterId: string): void {
    const setUp = `${meterId}/${probe.quantity}`;
    if (setUp !== this.#work.instrument) this.#spend(this.#shop.minutes.changeInstrument);
    this.#add({ instrument: setUp, probes: withMember(this.#work.probes, probe.id) });
    if (probe.state.kind === "live" && probe.quantity === "volts") {
      const points = [probe.from, probe.to].filter((point) => point !== undefined);
      this.#add({ clipped: new Set([...(this.#work.clipped ?? []), ...points]) });
    }
    this.#spend(this.#shop.minutes.reading);
  }

  #after(set: ReadingSet, state: ProbeState): void {
    const live = state.kind === "live";
    this.#add({
      pulled: new Set(state.kind === "dead" ? state.pulled : set.pulled),
      energy: live ? "live" : "plug out",
      provedDead: !live && this.#work.provedDead,
      ...(live ? {} : { clipped: new Set<string>() }),
    });
    if (live) this.#spend(this.#shop.minutes.runStep);
  }

  #did(event: JobEvent, did: { remedy: string; on: string; worked?: boolean; price?: number }): void {
    const on = this.#check.known(
      event,
      "job.unknown-part",
      did.on,
      this.#check.names.mended,
      "a part or cause of this sheet",
    );
    if (on === undefined) return;
    this.#repairs.push({
      event: event.id,
      remedy: did.remedy,
      on,
      looked: did.worked !== undefined,
      path: this.#readingsSinceRepair(),
      after: this.#observations.length,
      ...(did.worked === undefined ? {} : { worked: did.worked }),
    });
    this.#spend(REPAIR_MINUTES);
    this.#add({
      spent: this.#work.spent + (did.price ?? 0),
      probes: new Set(),
      looks: new Set(),
      signs: new Set([...this.#work.signs].filter((sign) => !sign.startsWith("seen:"))),
    });
  }

  #readingsSinceRepair(): Observation[] {
    const since = this.#observations.slice(this.#repairs.at(-1)?.after ?? 0);
    return since.map((noted) => noted.observation).filter((observation) => observation.kind === "reading");
  }

  #covers(event: JobEvent, named: readonly string[]): readonly string[] {
    const { access } = this.#check.names;
    return named.flatMap(
      (name) => this.#check.known(event, "job.unknown-access", name, access, "a cover of this sheet") ?? [],
    );
  }

  #open(id: string): void {
    const cover = this.#check.names.covers.get(id);
    if (cover === undefined) return;
    if (cover.after !== undefined && !this.#work.open.has(cover.after)) this.#open(cover.after);
    this.#add({ open: withMember(this.#work.open, id), position: cover.position });
    this.#spend(cover.minutes);
  }

  #close(id: string): void {
    const behind = [...this.#work.open].filter((other) => this.#check.names.covers.get(other)?.after === id);
    for (const other of behind) this.#close(other);
    this.#add({ open: new Set([...this.#work.open].filter((other) => other !== id)) });
  }

  /** Adds one observation; whatever comes after a repair is a look at it. */
  #note(event: JobEvent, observation: Observation): void {
    this.#observations.push({ event: event.id, observation });
    const last = this.#repairs.at(-1);
    const ofNow = observation.kind !== "sign" || observation.witness === "seen";
    if (last !== undefined && ofNow) this.#repairs[this.#repairs.length - 1] = { ...last, looked: true };
  }

  #add(change: Partial<WorkState>): void {
    this.#work = { ...this.#work, ...change };
  }

  #spend(minutes: number): void {
    this.#work = { ...this.#work, minutes: this.#work.minutes + minutes };
  }
}

function withMember(set: ReadonlySet<string>, member: string): ReadonlySet<string> {
  return new Set(set).add(member);
}
