import { modesOf } from "../../../core/fault/index.ts";
import { type Checked, sentence } from "../../../core/issue/index.ts";
import {
  type Job,
  type JobGround,
  KeptRepairs,
  knownAnswers,
  knownDifferences,
  openingJob,
  type WorkedJob,
  workingOut,
} from "../../../core/ledger/index.ts";
import { type Pieces, toItsEnd } from "../../../core/pace/index.ts";
import { Predictor } from "../../../core/predict/index.ts";
import { assemble, combinations, type Machine, type Sheet } from "../../../core/sheet/index.ts";
import { type ForeseenCase, KeptForesights } from "../../../core/suspect/index.ts";
import { branchesOf } from "../../../core/trace/index.ts";
import { ratingSpoken } from "../../words/rating-names.ts";
import { type TestabilityRow, testabilityInPieces } from "../../words/testability.ts";
import { benchKinds, benchView } from "./bench-view.ts";
import { eventFaults } from "./event-faults.ts";
import { Facts, type FactTexts } from "./facts.ts";
import { boardsOf, oddsOf, reasonsOf, slotsOf, viewing } from "./job-view.ts";
import type { PracticeDesk } from "./practice-desk.ts";
import type { Answered, Answers, Ask, Family, JobView, KindOffer } from "./protocol.ts";
import { sheetView, valuesOf } from "./sheet-view.ts";

/** Jobs kept worked out, and cases kept open: the one in hand, and those made ready for. */
const keptJobs = 4;
/** Milliseconds of long work before it is looked whether anything else was asked. */
const SLICE_MS = 20;

/** The core as the screens ask it: one question in, plain data out. Keeps what is dear to work out again. */
export class Engine {
  readonly #facts: Facts;
  readonly #jobs = new Map<string, Checked<WorkedJob>>();
  readonly #views = new Map<string, JobView>();
  readonly #foresights = new KeptForesights();
  #telling: { readonly key: string; readonly work: Pieces<readonly TestabilityRow[]> } | undefined;
  #ready: { readonly text: string; readonly work: Pieces<true> } | undefined;
  #practice: Promise<PracticeDesk> | undefined;
  readonly #cases = new Map<string, Checked<ForeseenCase>>();
  readonly #repairs = new KeptRepairs();

  constructor(texts: FactTexts) {
    this.#facts = new Facts(texts);
  }

  /** From now on jobs are of the shop that these words tell of; of their cost file alone where there are none. */
  layOver(own: string | undefined): void {
    if (own === this.#facts.own) return;
    this.#facts.own = own;
    this.#jobs.clear();
    this.#views.clear();
    this.#ready = undefined;
  }

  answer(ask: Ask): Answers[Ask["do"]] | Promise<Answers[Ask["do"]]> {
    switch (ask.do) {
      case "families":
        return Object.keys(this.#facts.texts.sheets).map((name) => this.#family(name));
      case "examples":
        return Object.entries(this.#facts.texts.examples).map(([name, text]) => ({ name, text }));
      case "kinds":
        return this.#kinds();
      case "bench kinds":
        return benchKinds(this.#facts);
      case "bench": {
        const view = benchView(ask.events, this.#facts);
        return view.ok ? { ok: true, view: view.value } : { ok: false, issues: view.issues.map(sentence) };
      }
      case "practice begins":
        return this.#practising().then((desk) => desk.begin(ask.sheet, ask.seed));
      case "practise":
        return this.#practising().then((desk) => desk.say(ask.sheet, ask.seed, ask.acts, ask.asked));
      case "practice ends":
        return this.#practising().then((desk) => desk.end(ask.sheet, ask.seed, ask.acts, ask.ended));
      case "sheet": {
        const machine = this.#machine(ask.name, ask.answers);
        const sheet = this.#sheet(ask.name);
        return machine === undefined ? undefined : sheetView(machine, sheet, slotsOf(sheet));
      }
      case "good values": {
        const machine = this.#machine(ask.name, ask.answers);
        return machine === undefined ? [] : valuesOf(machine);
      }
      case "testability":
        return this.#testability(ask.name, ask.answers);
      case "wake":
        return Object.keys(this.#facts.texts.kinds).length;
      case "make ready":
        return this.#makeReady(ask.text);
      case "odds": {
        const worked = this.#worked(ask.text);
        return worked.ok ? oddsOf(worked.value) : undefined;
      }
      case "reasons": {
        const worked = this.#worked(ask.text);
        return worked.ok ? reasonsOf(worked.value) : [];
      }
      case "boards": {
        const worked = this.#worked(ask.text);
        return worked.ok ? boardsOf(worked.value) : [];
      }
      case "branches": {
        const worked = this.#worked(ask.text);
        const [likeliest] = worked.ok ? worked.value.case.candidates : [];
        return likeliest === undefined ? [] : branchesOf(likeliest.machine);
      }
      case "choices":
        return this.#choose(ask.text, ask.date);
      case "closing":
        return this.#close(ask.text);
      case "power log":
        return this.#powerLog(ask);
      case "event faults":
        return eventFaults(ask.events);
      case "safety offers":
        return import("./closing-view.ts").then(({ safetyOffers }) => safetyOffers(this.#facts));
      case "job shop":
      case "papers":
      case "paper":
      case "kept paper":
      case "orders":
        return this.#papers().then((desk) => desk.answer(ask, (text) => this.#worked(text), this.#facts));
      case "work out": {
        const worked = this.#worked(ask.text);
        return worked.ok
          ? { ok: true, view: toItsEnd(this.#viewing(ask.text, worked.value, ask.where)) }
          : { ok: false, issues: worked.issues.map(sentence) };
      }
    }
  }

  /** What weighs choices is fetched when somebody first wants to choose. */
  async #choose(text: string, date: string): Promise<Answers["choices"]> {
    const { choicesView } = await import("./choices-view.ts");
    const worked = this.#worked(text);
    return worked.ok
      ? { ok: true, view: choicesView(worked.value, this.#facts, date) }
      : { ok: false, issues: worked.issues.map(sentence) };
  }

  /** What stands between repair and door is fetched when somebody first comes there. */
  async #close(text: string): Promise<Answers["closing"]> {
    const { closingView } = await import("./closing-view.ts");
    const worked = this.#worked(text);
    return worked.ok
      ? { ok: true, view: closingView(worked.value, this.#facts) }
      : { ok: false, issues: worked.issues.map(sentence) };
  }

  async #powerLog({ text, log, ...rest }: Ask & { readonly do: "power log" }): Promise<Answers["power log"]> {
    const { powerLogView } = await import("./power-log-view.ts");
    const worked = this.#worked(text);
    const view = worked.ok ? powerLogView(worked.value, { ...rest, text: log }) : worked;
    return view.ok ? { ok: true, view: view.value } : { ok: false, issues: view.issues.map(sentence) };
  }

  /** Papers and money come after the work: what makes them is fetched then. */
  #papers(): Promise<typeof import("./papers-desk.ts")> {
    return import("./papers-desk.ts");
  }

  /** Fetched when first asked for: a job at a real machine needs none of it. */
  #practising(): Promise<PracticeDesk> {
    this.#practice ??= import("./practice-desk.ts").then(({ PracticeDesk }) => new PracticeDesk(this.#facts));
    return this.#practice;
  }

  #family(name: string): Family {
    const sheet = this.#sheet(name);
    return { name, title: sheet.title, slots: slotsOf(sheet), plate: [{ id: "heater.P", says: "heater" }] };
  }

  #sheet(name: string): Sheet {
    const sheet = this.#facts.sheet(name);
    if (!sheet.ok) throw new Error(`the shipped sheet ${name} is faulty`);
    return sheet.value;
  }

  /** The commonest machine that the answers allow. */
  #machine(name: string, answers: Answered): Machine | undefined {
    const sheet = this.#sheet(name);
    const [commonest] = combinations(sheet, new Map(Object.entries(answers)));
    if (commonest === undefined) return undefined;
    const machine = assemble(sheet, this.#facts.library, commonest.choice);
    if (!machine.ok) throw new Error(`the shipped sheet ${name} is faulty`);
    return machine.value;
  }

  #kinds(): readonly KindOffer[] {
    const { library } = this.#facts;
    const fitting = [...library.kinds.values()].filter(({ id }) => this.#facts.branch(id).ok);
    return fitting.map(({ id, says, asks }) => {
      const isShared = fitting.some((other) => other.id !== id && other.says === says);
      const ratings = [...asks].flatMap(([name, asked]) =>
        asked.is === "amount" && asked.otherwise !== undefined ? [ratingSpoken(name, asked.otherwise)] : [],
      );
      return { id, says: isShared ? `${says} (${id.replaceAll("-", " ")})` : says, ratings };
    });
  }

  /** A job that was asked about lately is asked about again: its odds first, then its next step. */
  #worked(text: string): Checked<WorkedJob> {
    const worked = this.#jobs.get(text) ?? toItsEnd(this.#workingOut(text));
    keep(this.#jobs, text, worked);
    return worked;
  }

  /** All that the screens show of a job at the machine; throws where the job is at fault. */
  view(text: string): JobView {
    const worked = this.#worked(text);
    if (!worked.ok) throw new Error(worked.issues.map(sentence).join("\n"));
    return toItsEnd(this.#viewing(text, worked.value, "machine"));
  }

  /**
   * Works a job out beforehand, its next step at the machine with it, and what the answers to that step will be weighed by;
   * a little at a time. True when that is done.
   */
  #makeReady(text: string): boolean {
    if (this.#ready?.text !== text) this.#ready = { text, work: this.#readying(text) };
    if (forAWhile(this.#ready.work) === undefined) return false;
    this.#ready = undefined;
    return true;
  }

  *#readying(text: string): Pieces<true> {
    const worked = this.#jobs.get(text) ?? (yield* this.#workingOut(text));
    keep(this.#jobs, text, worked);
    if (!worked.ok) return true;
    const { plan } = yield* this.#viewing(text, worked.value, "machine");
    const asked = plan.steps[0]?.questions.map(({ observation }) => observation) ?? [];
    yield* worked.value.case.foreseeAnswers(asked);
    return true;
  }

  *#viewing(text: string, worked: WorkedJob, where: "telephone" | "machine"): Pieces<JobView> {
    const key = JSON.stringify([where, ofTheMachine(text)]);
    const view = this.#views.get(key) ?? (yield* viewing(worked, where, this.#facts.rulesOf));
    keep(this.#views, key, view);
    return view;
  }

  /** A little more work at it; undefined until it is done. */
  #testability(name: string, answers: Answered): Answers["testability"] {
    const key = JSON.stringify([name, answers]);
    if (this.#telling?.key !== key) {
      const machine = this.#machine(name, answers);
      if (machine === undefined) return [];
      const predictor = new Predictor(machine, modesOf(machine));
      this.#telling = { key, work: testabilityInPieces(predictor, this.#facts.meters) };
    }
    const rows = forAWhile(this.#telling.work);
    if (rows !== undefined) this.#telling = undefined;
    return rows;
  }

  *#workingOut(text: string): Pieces<Checked<WorkedJob>> {
    const read = this.#facts.job(text);
    if (!read.ok) return read;
    const { job, ground } = read.value;
    yield;
    return yield* workingOut(
      job,
      ground,
      (named) => this.#open(named, ground),
      (opened, state, shop) => this.#repairs.believe(opened, state, shop),
    );
  }

  /** A case hangs on the machine, not on what was seen of it; what it foresees is kept from event to event. */
  *#open(job: Job, ground: JobGround): Pieces<Checked<ForeseenCase>> {
    const { machine, sheet } = job;
    const key = JSON.stringify([sheet, machine.ageYears, [...knownAnswers(job)], knownDifferences(job)]);
    const opened = this.#cases.get(key) ?? (yield* openingJob(job, ground, this.#foresights));
    keep(this.#cases, key, opened);
    return opened;
  }
}

/** A job file without what it says for people alone: no step hangs on its number, nor on whose machine it is. */
function ofTheMachine(text: string): object {
  const { job: _job, complaint: _complaint, customer = {}, ...rest } = JSON.parse(text);
  const { name: _name, place: _place, ...limit } = customer;
  return { ...rest, ...limit };
}

/** Goes on with something for as long as nobody would mind waiting; undefined until it is done. */
function forAWhile<T>(work: Pieces<T>): T | undefined {
  const until = performance.now() + SLICE_MS;
  while (performance.now() < until) {
    const piece = work.next();
    if (piece.done === true) return piece.value;
  }
  return undefined;
}

/** Puts something last, and lets go of what was put there longest ago. */
function keep<T>(kept: Map<string, T>, key: string, value: T): void {
  kept.delete(key);
  kept.set(key, value);
  for (const oldest of kept.keys()) {
    if (kept.size <= keptJobs) break;
    kept.delete(oldest);
  }
}
