import type { Random } from "../chance/index.ts";
import type { Mode } from "../fault/index.ts";
import type { Meter, Shown } from "../meter/index.ts";
import { byNewPart } from "../plan/index.ts";
import { type Fault, Predictor, type Probe, probeOf } from "../predict/index.ts";
import { again, type Course, coursesFor, type Shop } from "../remedy/index.ts";
import type { Cause, Machine, SignRule } from "../sheet/index.ts";
import { meansMode, saidBy, type Witness } from "../sign/index.ts";
import { answersOf } from "../suspect/index.ts";
import type { DrawnMachine } from "./drawn-machine.ts";
import { type Errors, shownOf } from "./errors.ts";

/** Runs a customer has in mind when saying "sometimes" (from memory). */
const RUNS_IN_MIND = 5;
/** Chance that one operation in a count is taken for the other sort (from memory). */
const MISREAD = 0.01;
/** A fault that shows nothing by its kind's own words is still now and then seen (from memory). */
const UNSAID = { hit: 0.05, falseAlarm: 0.02 };
/** A cause whose sheet gives no odds for its look (from memory). */
const CAUSE_LOOK = { hit: 0.7, falseAlarm: 0.05 };
/** Eyes that never err see what shows more often than not: no coil looks open. */
const SHOWS = 0.5;
/** A sign by table counts as there, as a reason to call, from this far above what all machines have. */
const TABLE_ABOVE = 0.1;
/** A count's meter (common practice, no source). */
const COUNT_OHMS = 1e7;
/** A reading counts as good in a count of operations within this share of what a good machine reads. */
const ALIKE = 0.1;

/** One drawn machine with all that was ever solved of it; several technicians may work on it, each from the start. */
export class Truth {
  readonly drawn: DrawnMachine;
  readonly predictor: Predictor;
  readonly random: Random;
  readonly errors: Errors;
  readonly shop: Shop;
  readonly #answers = new Map<string, Float64Array>();

  /** @param predictor  may be shared by the truths of one drawn machine */
  constructor(
    drawn: DrawnMachine,
    random: Random,
    errors: Errors,
    shop: Shop,
    predictor: Predictor = new Predictor(drawn.machine, drawn.faults),
  ) {
    this.drawn = drawn;
    this.predictor = predictor;
    this.random = random;
    this.errors = errors;
    this.shop = shop;
  }

  get machine(): Machine {
    return this.drawn.machine;
  }

  /** Chances of the true answers; one of them is 1, save for signs by table. */
  answers(sign: SignRule, fault: Fault): Float64Array {
    const key = `${sign.id} ${fault.map(({ index }) => index)}`;
    let known = this.#answers.get(key);
    if (known === undefined) {
      known = answersOf(this.predictor, sign, fault);
      this.#answers.set(key, known);
    }
    return known;
  }

  /** Does the fault make this sign another than a good machine's? */
  differs(sign: SignRule, fault: Fault): boolean {
    const now = this.answers(sign, fault);
    const good = this.answers(sign, []);
    if (sign.rule.kind === "table") return now[0] > good[0] + TABLE_ABOVE;
    return now.some((chance, answer) => chance !== good[answer]);
  }
}

/**
 * A machine with a hidden fault that answers what is asked of it, and can be mended. The same question at the same stage
 * of the job gets the same answer, whoever asks: chance hangs on the machine's seed and the question's name alone.
 */
export class HiddenMachine {
  readonly truth: Truth;
  readonly #random: Random;
  #left: Fault;
  #stage = 0;
  #honest = true;
  #victimMended = false;
  readonly #backs: number[] = [];
  /** How often each remedy was done, by id. */
  readonly #times = new Map<string, number>();

  constructor(truth: Truth) {
    this.truth = truth;
    this.#random = truth.random;
    this.#left = truth.predictor.atoms;
  }

  /** No slip and no false answer so far. */
  get honest(): boolean {
    return this.#honest;
  }

  /** What is still wrong. */
  get faults(): readonly Mode[] {
    return this.#left.map(({ mode }) => mode);
  }

  /** Signs that would make somebody call: those that stand otherwise than in a good machine. */
  complaints(): readonly SignRule[] {
    return this.truth.machine.signs.filter((sign) => this.truth.differs(sign, this.#left));
  }

  /**
   * What a witness says of a sign.
   *
   * @param run  name of the run it is seen in: what comes and goes is there or not for the whole of it
   * @returns    undefined: this machine has no such thing to notice
   */
  answer(id: string, witness: Witness, run: string): string | undefined {
    const sign = this.truth.machine.signs.find((one) => one.id === id);
    if (sign === undefined) return undefined;
    const { failsOn } = this.truth.drawn;
    const about = this.#about(`sign ${id}`);
    if (witness !== "seen" && failsOn < 1 && this.truth.differs(sign, this.#left)) {
      const mixed = 1 - failsOn ** RUNS_IN_MIND - (1 - failsOn) ** RUNS_IN_MIND;
      if (about.fork(`${witness} sometimes`).uniform() < mixed) return "sometimes";
    }
    const chances = this.truth.answers(sign, this.#presentIn(witness === "seen" ? run : `what is ${witness}`));
    const actual = about.fork("truth").pick(chances);
    if (!this.truth.errors.witnesses) return sign.answers[actual];
    const only = new Float64Array(sign.answers.length);
    only[actual] = 1;
    const said = about.fork(witness).pick(saidBy(sign, witness, only));
    if (said !== actual) this.#honest = false;
    return sign.answers[said];
  }

  /** What eyes and hands find at a part or a cause. */
  look(at: string, mode: string | undefined): "bad" | "good" {
    const { machine, errors } = this.truth;
    const name = mode === undefined ? at : `${at}/${mode}`;
    const here = this.#left.map((atom) => atom.mode).filter((one) => meansMode(name, one, machine));
    if (!errors.witnesses) return here.some((one) => hitOf(one, machine.causes[one.cause]) > SHOWS) ? "bad" : "good";
    const cause = machine.causes.find(({ id }) => id === at);
    const rules = machine.parts.find(({ id }) => id === at)?.instance.modes ?? [];
    const alarms = rules.map(({ seen }) => seen?.falseAlarm ?? UNSAID.falseAlarm);
    const falseAlarm =
      cause !== undefined
        ? (cause.look?.odds ?? CAUSE_LOOK).falseAlarm
        : alarms.length === 0
          ? UNSAID.falseAlarm
          : alarms.reduce((sum, p) => sum + p, 0) / alarms.length;
    const hits = here.map((one) => hitOf(one, machine.causes[one.cause]));
    const found = this.#about(`look ${name}`).uniform() < Math.max(falseAlarm, ...hits) ? "bad" : "good";
    if ((found === "bad") !== here.length > 0) this.#honest = false;
    return found;
  }

  /** What the display shows; undefined: this machine has no such point, or no such step. */
  read(probe: Probe, meter: Meter, run: string): Shown | undefined {
    if (!this.truth.predictor.has(probe)) return undefined;
    const { errors } = this.truth;
    const reading = this.#about(`reading ${probe.id} ${meter.id}`);
    const slipped = reading.fork("slip").uniform() < errors.slips ? this.#besides(probe, reading) : undefined;
    if (slipped !== undefined) this.#honest = false;
    const value = this.#trueValue(slipped ?? probe, meter.inputOhms, this.#presentIn(run));
    const chance = errors.meters ? { day: this.#random.fork("meters"), reading: reading.fork("digits") } : undefined;
    return shownOf(meter, probe.quantity, value, chance);
  }

  /** How many of so many operations were good. */
  count(probe: Probe, of: number): number | undefined {
    if (!this.truth.predictor.has(probe)) return undefined;
    const good = this.#trueValue(probe, COUNT_OHMS, []);
    const now = this.#trueValue(probe, COUNT_OHMS, this.#left);
    const same = good === now || Math.abs(now - good) <= ALIKE * Math.abs(good);
    const chance = same ? 1 : 1 - this.truth.drawn.failsOn;
    const misread = this.truth.errors.witnesses ? MISREAD : 0;
    const each = this.#about(`count ${probe.id}`);
    let found = 0;
    for (let n = 0; n < of; n++) if (each.uniform() < chance * (1 - misread) + (1 - chance) * misread) found++;
    return found;
  }

  /**
   * Does the remedy to the machine; says whether it was meant for anything that is wrong. What did not cure the first time
   * may cure the second time (`again`).
   */
  mend({ id }: Pick<Course, "id">): boolean {
    this.#stage++;
    const times = this.#times.get(id) ?? 0;
    this.#times.set(id, times + 1);
    let right = false;
    this.#left = this.#left.filter(({ mode }) => {
      const met = this.#coursesFor(mode).find((course) => course.id === id);
      if (met === undefined) return true;
      right = true;
      const draw = this.#random.fork(`mend ${id} ${mode.id}${times === 0 ? "" : ` after ${times}`}`).uniform();
      if (draw >= (again(met, times)?.cured ?? 0)) return true;
      this.#backs.push(met.back);
      this.#victimMended ||= mode.victim;
      return false;
    });
    return right;
  }

  /**
   * Does the job come back within the guarantee: by what is still wrong and shows, by a protector whose cause is still
   * there, or by a repair that did not hold?
   */
  comesBack(): boolean {
    if (this.complaints().length > 0) return true;
    if (this.#victimMended && this.#left.some(({ mode }) => !mode.victim)) return true;
    return this.#about("back").uniform() < 1 - this.#backs.reduce((holds, back) => holds * (1 - back), 1);
  }

  #coursesFor(mode: Mode): readonly Course[] {
    const { machine, shop } = this.truth;
    // Whether a protector comes back is settled by what is still wrong, not by what is known of it.
    const known = new Set(machine.parts.map(({ id }) => id));
    return [...coursesFor(machine, mode, shop, known), ...byNewPart(machine, mode, shop, known)];
  }

  #about(question: string): Random {
    return this.#random.fork(`${this.#stage} ${question}`);
  }

  #presentIn(run: string): Fault {
    const { failsOn } = this.truth.drawn;
    return failsOn < 1 && this.#about(`run ${run}`).uniform() >= failsOn ? [] : this.#left;
  }

  #trueValue(probe: Probe, inputOhms: number, fault: Fault): number {
    if (probe.measure === undefined) return this.truth.predictor.value(probe, inputOhms, fault);
    const { cause: id, id: name } = probe.measure;
    const { causes } = this.truth.machine;
    const measure = causes.find((cause) => cause.id === id)?.measures.find((one) => one.id === name);
    if (measure === undefined) throw new RangeError(`trial: no measurement ${name} of ${id}`);
    const { lo, hi, nominal } = fault.some(({ mode }) => causes[mode.cause]?.id === id) ? measure.bad : measure.good;
    // A band is where nearly all machines lie: its ends stand at two standard deviations.
    const z = this.truth.errors.meters ? this.#about(`measure ${id} ${name}`).normal() : 0;
    return lo < hi ? (lo + hi) / 2 + (z * (hi - lo)) / 4 : nominal;
  }

  /** What is read by mistake: one tip on another pin of the same connector or part, or another step of the programme. */
  #besides(probe: Probe, random: Random): Probe | undefined {
    const { machine } = this.truth;
    const { id: _, ...rest } = probe;
    if (probe.state.kind === "live" && probe.from === undefined) {
      const other = machine.steps.filter(({ id }) => probe.state.kind === "live" && id !== probe.state.step);
      if (other.length === 0) return undefined;
      const step = other[random.fork("wrong step").pick(other.map(() => 1))];
      return probeOf({ ...rest, state: { kind: "live", step: step.id } });
    }
    const at = machine.points.find(({ id }) => id === probe.to);
    if (at === undefined || at.id.lastIndexOf(".") < 0) return undefined;
    const owner = at.id.slice(0, at.id.lastIndexOf(".") + 1);
    const beside = machine.points.filter(({ id }) => id.startsWith(owner) && id !== probe.to && id !== probe.from);
    if (beside.length === 0) return undefined;
    return probeOf({ ...rest, to: beside[random.fork("wrong point").pick(beside.map(() => 1))].id });
  }
}

function hitOf(mode: Mode, cause: Cause | undefined): number {
  return cause === undefined ? (mode.seen ?? UNSAID).hit : (cause.look?.odds ?? CAUSE_LOOK).hit;
}
