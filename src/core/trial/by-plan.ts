import { believeJob, type Carried, type JobEvent } from "../ledger/index.ts";
import { nextSteps, type Plan, type PlanStep, whyOf } from "../plan/index.ts";
import { type Course, remediesIn } from "../remedy/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Belief } from "../suspect/index.ts";
import type { Hands } from "./hands.ts";
import type { History } from "./history.ts";
import { type Desk, foldOf, prove, type Technician } from "./technician.ts";

/** Steps after which anybody gives up (from memory). */
const MOST_STEPS = 40;
/** A machine that is fine with these odds is left as it is, whatever the plan would still ask. */
const WORKS = 0.5;
/** Histories up to this many events are remembered: the first steps of all jobs with one complaint are the same. */
const REMEMBERED_EVENTS = 12;

/** What is thought at one point of a job. */
interface Thought {
  readonly plan: Plan;
  readonly belief: Belief;
}

/** What was believed along the way, for whoever knows the truth. */
export type Watching = (belief: Belief, hands: Hands, plan: Plan) => void;

/** Follows the plan: the first step of `nextSteps` each time, as anybody with the command line would. */
export function byPlan(watching: Watching = () => {}): Technician {
  return (desk, hands) => new PlanFollower(desk, hands, watching).work();
}

const remembered = new WeakMap<Desk, Map<string, Thought>>();
const interned = new WeakMap<Desk, Map<string, Observation>>();

class PlanFollower {
  readonly #desk: Desk;
  readonly #hands: Hands;
  readonly #watching: Watching;
  /** What the repairs so far have left of the case, so that a job is not carried over all of them at every step. */
  #carried: Carried;

  constructor(desk: Desk, hands: Hands, watching: Watching) {
    this.#desk = desk;
    this.#hands = hands;
    this.#watching = watching;
    this.#carried = { case: desk.case, repairs: 0 };
  }

  work(): History {
    let works = false;
    let last = "";
    for (let n = 0; n < MOST_STEPS; n++) {
      const { plan, belief } = this.#think();
      this.#watching(belief, this.#hands, plan);
      const step = works ? this.#toClose(plan) : plan.steps.find((one) => one.do !== "talk");
      if (step === undefined) return this.#hands.end(works ? "mended" : "stopped");
      if (step.do === "stop") return this.#hands.end(belief.nothingWrong > WORKS ? "mended" : "stopped");
      if (step.do === "verify") {
        works = this.#verify(step);
        continue;
      }
      const before = this.#hands.events.length;
      if (step.course === undefined) this.#ask(step);
      else {
        this.#mend(step, step.course);
        works = false;
      }
      // What could not be done here, or was done already and is proposed again, is said to be impossible.
      const nothing = this.#hands.events.slice(before).every(({ kind }) => PREPARING.has(kind));
      if (step.do !== "repair" && (nothing || step.id === last)) this.#hands.cannot(step.id);
      last = step.id;
    }
    return this.#hands.end("stopped");
  }

  #think(): Thought {
    const { events } = this.#hands;
    const desk = this.#desk;
    const memory = remembered.get(desk) ?? new Map<string, Thought>();
    remembered.set(desk, memory);
    const key = events.length > REMEMBERED_EVENTS ? undefined : keyOf(events);
    const known = key === undefined ? undefined : memory.get(key);
    if (known !== undefined) return known;
    const state = foldOf(desk, events);
    const observations = state.observations.map((noted) => ({ ...noted, observation: this.#same(noted.observation) }));
    const believed = believeJob(this.#carried, { ...state, observations }, desk.shop);
    this.#carried = { case: believed.case, repairs: state.repairs.length };
    const plan = nextSteps(believed.case, believed.belief, state.work, desk.shop, { meters: desk.meters });
    const { logPosterior: _, ...summary } = believed.belief;
    const thought = { plan, belief: { ...summary, logPosterior: new Float64Array(0) } };
    if (key !== undefined) memory.set(key, thought);
    return thought;
  }

  /** Equal observations are one object, so that the case weighs each but once. */
  #same(observation: Observation): Observation {
    const known = interned.get(this.#desk) ?? new Map<string, Observation>();
    interned.set(this.#desk, known);
    const key =
      observation.kind === "reading"
        ? `${observation.probe.id} ${observation.meter.id} ${JSON.stringify(observation.shown)}`
        : JSON.stringify(observation);
    const same = known.get(key) ?? observation;
    known.set(key, same);
    return same;
  }

  /** A working machine is closed as soon as it is known why its protectors opened, and what was found is put right. */
  #toClose(plan: Plan): PlanStep | undefined {
    const { foundBad, repairs } = foldOf(this.#desk, this.#hands.events).work;
    const done = new Set(repairs.map(({ on }) => on));
    return plan.steps.find(
      (step) =>
        step.do === "why" ||
        (step.course !== undefined && foundBad.has(step.course.on) && !done.has(step.course.on) && !plan.mayClose),
    );
  }

  #verify(step: PlanStep): boolean {
    const works = prove(this.#desk, this.#hands);
    if (works) return true;
    const readings = step.questions.flatMap(({ observation }) =>
      observation.kind === "reading" && observation.probe.state.kind === "dead" ? [observation] : [],
    );
    if (readings.length > 0) {
      this.#hands.isolate();
      this.#hands.measure(readings);
    }
    return false;
  }

  #setUp(step: PlanStep): void {
    for (const act of step.setUp) {
      if (act.do === "open") this.#hands.open(act.access);
      else if (act.do === "close") this.#hands.close(act.access);
      else if (act.do === "prove dead") this.#hands.isolate();
    }
  }

  #ask(step: PlanStep): void {
    this.#setUp(step);
    const observations = step.questions.map(({ observation }) => observation);
    const told = observations.flatMap((one) => (one.kind === "sign" && one.witness === "told" ? [one.sign] : []));
    const seen = observations.flatMap((one) => (one.kind === "sign" && one.witness === "seen" ? [one.sign] : []));
    if (told.length > 0) this.#hands.ask(told, "told");
    const found = observations.flatMap((one) => (one.kind === "look" ? [this.#hands.look(one.at, one.mode)] : []));
    this.#hands.measure(observations.flatMap((one) => (one.kind === "reading" ? [one] : [])));
    if (seen.length > 0) this.#hands.ask(seen, "seen");
    for (const one of observations) if (one.kind === "count") this.#hands.count(one);
    this.#why(step, found);
  }

  /** A reason that was looked for: found, it is written down; not found, it was not that. */
  #why(step: PlanStep, found: readonly string[]): void {
    const why = whyOf(step);
    if (why === undefined) return;
    if (found.length === 0 || found.includes("bad")) this.#hands.why(why.protector, why.reason);
    else this.#hands.cannot(step.id);
  }

  #mend(step: PlanStep, whole: Course): void {
    this.#setUp(step);
    if (step.energy !== "any") this.#hands.isolate();
    // Several courses in one go are several remedies on paper.
    for (const { id } of remediesIn(whole.id)) {
      const course = this.#desk.repairs.get(id);
      if (course === undefined) throw new Error(`trial: the plan names a remedy nobody knows: ${id}`);
      this.#hands.mend(course, undefined);
    }
  }
}

/** Events that only get ready for something. */
const PREPARING: ReadonlySet<JobEvent["kind"]> = new Set(["opened", "closed", "unplugged", "isolated", "energised"]);

function keyOf(events: readonly JobEvent[]): string {
  return JSON.stringify(events, (_, value) => (value instanceof Map ? [...value] : value));
}
