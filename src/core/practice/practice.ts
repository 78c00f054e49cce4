import { type BelievedJob, believeJob, type EventBody, type JobEvent, type JobState } from "../ledger/index.ts";
import { quantityOf } from "../meter/index.ts";
import { accessChain, instrumentFor, nextSteps, type Plan } from "../plan/index.ts";
import { type Probe, type ProbeState, probeOf } from "../predict/index.ts";
import type { Observation, Witness } from "../sign/index.ts";
import {
  type Bill,
  billOf,
  type Desk,
  foldOf,
  Hands,
  HiddenMachine,
  type History,
  prove,
  type Remedy,
  type Spent,
  spentAlong,
  type Truth,
} from "../trial/index.ts";
import type { Act, Pair, RunName } from "./act.ts";
import { type Judgement, judgeAct } from "./judge-act.ts";
import { AS_FOUND, type Place } from "./place.ts";

/** What came of an act. */
export type Outcome =
  | { readonly kind: "done"; readonly events: readonly JobEvent[]; readonly works?: boolean }
  | { readonly kind: "taken back"; readonly act: Act }
  | Judgement;

/** What is thought of the job as it stands, by the same engine that answers for any job. */
export interface Thought extends BelievedJob {
  readonly state: JobState;
  readonly plan: Plan;
}

/** A history with what it came to, for showing beside another. */
export interface Account {
  readonly history: History;
  readonly bill: Bill;
  readonly along: readonly Spent[];
}

/** An act with the events it wrote. */
interface Done {
  readonly act: Act;
  readonly events: readonly string[];
}

/** Work of one hint, in tables and hypotheses looked at. */
const WORK = { tables: 400, atMost: 200 };

/**
 * One learner at one machine with a hidden fault. An act that is safe and possible is done to the machine and written down;
 * another is answered and left undone. The same acts on the same machine give the same answers.
 */
export class Practice {
  readonly desk: Desk;
  readonly truth: Truth;
  readonly events: JobEvent[] = [];
  readonly #told: readonly string[];
  readonly #remedies = new Map<string, Remedy>();
  #done: Done[] = [];
  #hands: Hands;
  #place: Place = AS_FOUND;
  #thought: { readonly at: string; readonly thought: Thought } | undefined;

  /** @param told  signs the customer tells of when calling */
  constructor(desk: Desk, truth: Truth, told: readonly string[]) {
    this.desk = desk;
    this.truth = truth;
    this.#told = told;
    this.#hands = this.#freshHands();
    this.#write(this.#hands.events);
  }

  get place(): Place {
    return this.#place;
  }

  /** Does an act, unless it would hurt somebody or cannot be done. */
  do(act: Act): Outcome {
    const judged = judgeAct(act, this.#place, this.desk.machine, this.desk.shop) ?? this.#mayClose(act);
    if (judged !== undefined) return judged;
    const before = this.#hands.events.length;
    const works = this.#perform(act);
    const events = this.#write(this.#hands.events.slice(before));
    const nothing = events.length === 0 && READS.has(act.do) && works === undefined;
    if (nothing) return { kind: "obstacle", obstacle: { because: "no such reading" } };
    this.#done.push({ act, events: events.map(({ id }) => id) });
    return { kind: "done", events, ...(works === undefined ? {} : { works }) };
  }

  /** Takes the last act back, as if it had not been done: its events are withdrawn, and the machine stands as before it. */
  undo(): Outcome {
    const last = this.#done.pop();
    if (last === undefined) return { kind: "obstacle", obstacle: { because: "nothing to take back" } };
    for (const event of last.events) this.#append({ kind: "withdraws", event });
    this.#hands = this.#freshHands();
    this.#place = AS_FOUND;
    for (const { act } of this.#done) this.#perform(act);
    return { kind: "taken back", act: last.act };
  }

  /** Possible faults and next steps, as for any job with these events. */
  think(): Thought {
    const at = `${this.events.length} ${this.#done.length}`;
    if (this.#thought?.at === at) return this.#thought.thought;
    const state = foldOf(this.desk, this.#standing());
    const { live, provedDead, pulled } = this.#place;
    const work = { ...state.work, energy: live ? ("live" as const) : ("plug out" as const), provedDead, pulled };
    const believed = believeJob(this.desk.case, state, this.desk.shop);
    const plan = nextSteps(believed.case, believed.belief, work, this.desk.shop, { meters: this.desk.meters, ...WORK });
    const thought = { ...believed, state: { ...state, work }, plan };
    this.#thought = { at, thought };
    return thought;
  }

  /** Signs that this witness answered since the last repair. */
  answered(witness: Witness): ReadonlySet<string> {
    const standing = this.#standing();
    const last = standing.findLastIndex(({ kind }) => kind === "did");
    const since = witness === "told" ? standing : standing.slice(last + 1);
    return new Set(since.flatMap((event) => (event.kind === witness ? event.answers.map(({ sign }) => sign) : [])));
  }

  /** Minutes so far. */
  get minutes(): number {
    return spentAlong(this.#history("stopped"), this.desk.machine, this.desk.shop).at(-1)?.minutes ?? 0;
  }

  /** The job as it stands, ended so. */
  end(ended: History["ended"]): Account {
    return accountOf(this.#history(ended), this.desk);
  }

  /** The way to the end that somebody else takes on the same machine, from the same call. */
  followed(technician: (desk: Desk, hands: Hands) => History): Account {
    return accountOf(technician(this.desk, this.#freshHands()), this.desk);
  }

  #history(ended: History["ended"]): History {
    const { cameBack } = this.#hands.end(ended);
    return { events: this.#standing(), remedies: this.#remedies, ended, cameBack };
  }

  /** Events that were not taken back. */
  #standing(): readonly JobEvent[] {
    const withdrawn = new Set(this.events.flatMap((event) => (event.kind === "withdraws" ? [event.event] : [])));
    return this.events.filter(({ id, kind }) => kind !== "withdraws" && !withdrawn.has(id));
  }

  #freshHands(): Hands {
    const hands = new Hands(this.desk, new HiddenMachine(this.truth));
    hands.ask(this.#told, "told");
    return hands;
  }

  #append(body: EventBody): JobEvent {
    const n = this.events.length + 1;
    const event = { id: `e${n}`, line: n, ...body };
    this.events.push(event);
    return event;
  }

  /** Writes down what hands did, under the paper's own numbers. */
  #write(made: readonly JobEvent[]): readonly JobEvent[] {
    const { remedies } = this.#hands.end("stopped");
    return made.map(({ id, line: _, ...body }) => {
      const event = this.#append(body);
      const remedy = remedies.get(id);
      if (remedy !== undefined) this.#remedies.set(event.id, remedy);
      return event;
    });
  }

  /** Nobody closes a job while it is not known why a protector opened. */
  #mayClose(act: Act): Judgement | undefined {
    if (act.do !== "finish") return undefined;
    const [open] = this.think().plan.unanswered;
    if (open === undefined) return undefined;
    return { kind: "obstacle", obstacle: { because: "nobody knows why it opened", of: open.protector } };
  }

  /** Does an act that was judged; gives whether it works, where that was the question. */
  #perform(act: Act): boolean | undefined {
    const hands = this.#hands;
    const place = this.#place;
    switch (act.do) {
      case "ask":
        hands.ask(act.signs, "told");
        return undefined;
      case "watch":
        hands.ask(act.signs, "seen");
        return undefined;
      case "look":
        for (const at of act.at) hands.look(at);
        return undefined;
      case "open":
        hands.uncover(act.access);
        this.#place = { ...place, open: new Set([...place.open, ...this.#chain(act.access)]) };
        return undefined;
      case "close":
        hands.close(act.access);
        this.#place = { ...place, open: without(place.open, act.access) };
        return undefined;
      case "plug out":
        hands.unplug();
        this.#place = { ...place, live: false, provedDead: false };
        return undefined;
      case "plug in":
        hands.energise();
        this.#place = { ...place, live: true, provedDead: false, discharged: new Set() };
        return undefined;
      case "prove dead":
        hands.isolate();
        this.#place = { ...place, provedDead: true };
        return undefined;
      case "discharge":
        this.#place = { ...place, discharged: place.open };
        return undefined;
      case "pull":
      case "push":
        this.#place = { ...place, pulled: changed(place.pulled, act.plug, act.do === "pull") };
        return undefined;
      case "free":
      case "refit":
        this.#place = { ...place, freed: changed(place.freed, act.part, act.do === "free") };
        return undefined;
      case "hold":
        this.#place = { ...place, hands: new Map(place.hands).set(act.input, act.to) };
        return undefined;
      case "measure":
        this.#measure(act);
        return undefined;
      case "gauge":
        this.#gauge(act.cause, act.measure);
        return undefined;
      case "count":
        hands.count({ kind: "count", probe: this.#probe("ohms", act.pair, this.#dead), good: 0, of: act.of });
        return undefined;
      case "mend": {
        const course = this.desk.repairs.get(act.course);
        if (course === undefined) throw new RangeError(`practice: no remedy ${act.course}`);
        hands.mend(course, undefined);
        this.#place = { ...place, verified: false };
        return undefined;
      }
      case "why":
        hands.why(act.protector, act.reason);
        return undefined;
      case "verify": {
        const works = prove(this.desk, hands);
        this.#place = { ...place, verified: works };
        return works;
      }
      case "bridge":
      case "finish":
      case "stop":
        return undefined;
    }
  }

  #chain(access: string): readonly string[] {
    return accessChain(access, new Map(this.desk.machine.access.map((group) => [group.id, group]))).map(({ id }) => id);
  }

  get #dead(): ProbeState {
    const { pulled, freed, hands } = this.#place;
    return { kind: "dead", pulled: [...pulled], freed: [...freed], hands };
  }

  #measure({ quantity, pairs, run }: Extract<Act, { do: "measure" }>): void {
    const state = run === undefined ? this.#dead : liveIn(run);
    const meter = instrumentFor(quantity, this.desk.shop.bag, this.desk.meters);
    const probes =
      pairs.length === 0 ? [probeOf({ quantity, state })] : pairs.map((pair) => this.#probe(quantity, pair, state));
    this.#hands.measure(probes.map((probe) => readingOf(probe, meter)));
    if (run !== undefined && pairs.length > 0)
      this.#place = { ...this.#place, provedDead: false, discharged: new Set() };
  }

  #gauge(cause: string, id: string): void {
    const unit = this.desk.machine.causes.find((one) => one.id === cause)?.measures.find((one) => one.id === id)?.unit;
    if (unit === undefined) throw new RangeError(`practice: no measurement ${id} of ${cause}`);
    const quantity = quantityOf(unit);
    const state: ProbeState = { kind: "dead", pulled: [], freed: [], hands: new Map() };
    const meter = instrumentFor(quantity, this.desk.shop.bag, this.desk.meters);
    this.#hands.measure([readingOf(probeOf({ quantity, measure: { cause, id }, state }), meter)]);
  }

  #probe(quantity: Probe["quantity"], { from, to, joinedWith }: Pair, state: ProbeState): Probe {
    return probeOf({ quantity, from, to, state, ...(joinedWith.length === 0 ? {} : { joinedWith }) });
  }
}

/** Acts that come to nothing where the machine has no answer. */
const READS: ReadonlySet<Act["do"]> = new Set(["ask", "watch", "measure", "gauge", "count"]);

/** What a history came to, event by event and in all. */
export function accountOf(history: History, { machine, shop }: Desk): Account {
  return { history, bill: billOf(history, machine, shop), along: spentAlong(history, machine, shop) };
}

function readingOf(probe: Probe, meter: ReturnType<typeof instrumentFor>): Extract<Observation, { kind: "reading" }> {
  return { kind: "reading", probe, meter, leads: "nulled", shown: { kind: "over limit" } };
}

function liveIn({ kind, id }: RunName): ProbeState {
  return kind === "step"
    ? { kind: "live", step: id }
    : kind === "condition"
      ? { kind: "live", condition: id }
      : { kind: "live", command: id };
}

function without(set: ReadonlySet<string>, member: string): ReadonlySet<string> {
  return changed(set, member, false);
}

function changed(set: ReadonlySet<string>, member: string, there: boolean): ReadonlySet<string> {
  const copy = new Set(set);
  if (there) copy.add(member);
  else copy.delete(member);
  return copy;
}
