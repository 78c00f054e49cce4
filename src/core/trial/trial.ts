import { type Random, seeded } from "../chance/index.ts";
import type { Meter } from "../meter/index.ts";
import type { Shop } from "../remedy/index.ts";
import { assemble, combinations, type Library, type Machine, type Sheet } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import { caseFrom, type ForeseenCase, foreseeing, liveHypotheses } from "../suspect/index.ts";
import { type Bill, billOf } from "./bill.ts";
import { byPlan } from "./by-plan.ts";
import { bySwapping } from "./by-swapping.ts";
import { byTesting } from "./by-testing.ts";
import { drawMachine } from "./drawn-machine.ts";
import { type Errors, USUAL_ERRORS } from "./errors.ts";
import { Hands } from "./hands.ts";
import { HiddenMachine, Truth } from "./hidden-machine.ts";
import type { History } from "./history.ts";
import { repairsById } from "./repairs.ts";
import { type Desk, goodAnswersOf, type Technician } from "./technician.ts";
import { oneSlotWrong, ownerOf, partLeftOut, ratesOff, type WrongSheet, without } from "./wrong-sheet.ts";

/** Ways of working that are compared. */
export const STRATEGIES = ["plan", "swap", "test"] as const;
export type Strategy = (typeof STRATEGIES)[number];

/** What is simulated. */
export interface TrialAsk {
  readonly sheet: Sheet;
  readonly library: Library;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
  readonly machines: number;
  readonly seed: string;
  readonly strategies: readonly Strategy[];
  readonly wrong?: WrongSheet;
}

/** One job of one technician on one machine. */
export interface Played {
  /** Number of the machine; all strategies meet the same. */
  readonly machine: number;
  /** Number of the group of machines of one type. */
  readonly group: number;
  readonly strategy: Strategy;
  readonly fault: string;
  readonly bill: Bill;
  /** Of the plan: the least odds a true cause ever had while no slip and no false answer had been met. */
  readonly leastTrue?: number;
  /** Of the plan: odds of something not on this sheet, when the job ended. */
  readonly notOnThisSheet?: number;
}

/** Groups that machines are spread over, and least machines of one type in a group. */
const GROUPS = 80;
const LEAST_IN_GROUP = 4;
/** Pairs of unrelated faults that are held; the likeliest of tens of thousands. */
const PAIRS = 4000;
/** Questions that the shop asks on the telephone, whatever the complaint ("five good questions"). */
const QUESTIONS = 5;
/** Machines that are drawn before giving up on finding one that anybody would call about. */
const MOST_DRAWS = 50;

/** How many machines there are in a group; the work is shared out by groups, so that no number hangs on who does it. */
export function groupSize(machines: number): number {
  return Math.max(LEAST_IN_GROUP, Math.ceil(machines / GROUPS));
}

/** How many groups there are. */
export function groupCount(machines: number): number {
  return Math.ceil(machines / groupSize(machines));
}

/**
 * Plays all jobs of one group of machines of one type, drawn by its share. Deterministic: the seed and the group's number
 * settle everything.
 */
export function playGroup(ask: TrialAsk, group: number): readonly Played[] {
  const seed = seeded(ask.seed);
  const types = combinations(ask.sheet);
  const { choice } = types[seed.fork(`type ${group}`).pick(types.map(({ weight }) => weight))];
  const type = typeOf(ask, choice, seed.fork(`sheet ${group}`));
  const size = groupSize(ask.machines);
  const played: Played[] = [];
  for (let n = group * size; n < Math.min(ask.machines, (group + 1) * size); n++) {
    const met = meetMachine(type, ask.shop, seed.fork(`machine ${n}`), USUAL_ERRORS);
    for (const strategy of ask.strategies) played.push(play(type.desk, met, strategy, n, group, ask));
  }
  return played;
}

/** Machines of one type, as they are and as the technician's sheet has them. */
export interface MachineType {
  readonly truth: ForeseenCase;
  readonly desk: Desk;
  /** Only faults of this part or cause are drawn: what the technician's sheet leaves out. */
  readonly leftOut?: string;
}

/** Opens the case of one type of machine; with a wrong sheet, the technician's case is another than the true one. */
export function typeOf(
  ask: Pick<TrialAsk, "sheet" | "library" | "shop" | "meters" | "wrong">,
  choice: ReadonlyMap<string, string>,
  random: Random,
): MachineType {
  const own = foreseeing(machineOf(ask, choice));
  const truth = caseFrom([{ foresight: own, weight: 1 }], { pairsAtMost: PAIRS });
  const leftOut = ask.wrong === "missing-part" ? partLeftOut(own, random) : undefined;
  const other =
    ask.wrong === "rates"
      ? ratesOff(own, random)
      : ask.wrong === "variant"
        ? foreseeing(machineOf(ask, oneSlotWrong(choice, combinations(ask.sheet), random)))
        : leftOut === undefined
          ? undefined
          : without(own, leftOut);
  const believed = other === undefined ? truth : caseFrom([{ foresight: other, weight: 1 }], { pairsAtMost: PAIRS });
  return { truth, desk: deskOf(believed, ask.shop, ask.meters), ...(leftOut === undefined ? {} : { leftOut }) };
}

/** What a technician has of a machine whose type is known. */
export function deskOf(the: ForeseenCase, shop: Shop, meters: ReadonlyMap<string, Meter>): Desk {
  const [{ machine, modes }] = the.candidates;
  const bench = { machine, shop, meters };
  return { ...bench, case: the, repairs: repairsById(bench, modes), goodAnswers: goodAnswersOf(the) };
}

function machineOf(
  { sheet, library }: Pick<TrialAsk, "sheet" | "library">,
  choice: ReadonlyMap<string, string>,
): Machine {
  const made = assemble(sheet, library, choice, []);
  if (!made.ok) throw new Error(`trial: a combination of the sheet does not assemble: ${made.issues[0]?.found}`);
  return made.value;
}

/** A machine somebody calls about, and the signs they are asked for and tell of. */
export interface Met {
  readonly truth: Truth;
  readonly told: readonly string[];
}

/** Draws until a machine shows something that one would call about. */
export function meetMachine(type: MachineType, shop: Shop, random: Random, errors: Errors): Met {
  const [{ machine }] = type.truth.candidates;
  const { leftOut } = type;
  for (let draws = 0; draws < MOST_DRAWS; draws++) {
    const own = random.fork(`draw ${draws}`);
    const drawn = drawMachine(type.truth, own.fork("machine"), {
      spread: errors.meters,
      ...(leftOut === undefined
        ? {}
        : { among: ({ modes }) => modes.length === 1 && ownerOf(modes[0], machine) === leftOut }),
    });
    const truth = new Truth(drawn, own.fork("answers"), errors, shop);
    const complaints = new HiddenMachine(truth).complaints();
    if (complaints.length === 0) continue;
    const asked = questionsOf(type.desk);
    // What made them call is told as well, where none of the questions meets it.
    const met = complaints.some(({ id }) => asked.includes(id));
    return { truth, told: met ? asked : [...asked, complaints[0].id] };
  }
  throw new Error(`trial: ${MOST_DRAWS} machines drawn, and none that anybody would call about`);
}

const questions = new WeakMap<Desk, readonly string[]>();

/** The telephone questions that tell the most about what is wrong, before anything is known. */
export function questionsOf(desk: Desk): readonly string[] {
  const known = questions.get(desk);
  if (known !== undefined) return known;
  const live = liveHypotheses(desk.case.update([]));
  const told = desk.machine.signs.map((sign) => {
    const asked: Observation = { kind: "sign", sign: sign.id, answer: sign.answers[0], witness: "told" };
    const { chance } = desk.case.outcomes(asked, live);
    let nats = 0;
    for (const chances of chance) {
      const p = chances.reduce((sum, x, i) => sum + x * live.weights[i], 0);
      chances.forEach((x, i) => {
        if (x > 0 && p > 0) nats += live.weights[i] * x * Math.log(x / p);
      });
    }
    return { id: sign.id, nats };
  });
  told.sort((a, b) => b.nats - a.nats || (a.id < b.id ? -1 : 1));
  const best = told.slice(0, QUESTIONS).map(({ id }) => id);
  questions.set(desk, best);
  return best;
}

/** One technician at one machine, from the telephone on. */
export function workOn(desk: Desk, { truth, told }: Met, technician: Technician): History {
  const hands = new Hands(desk, new HiddenMachine(truth));
  hands.ask(told, "told");
  return technician(desk, hands);
}

function play(desk: Desk, met: Met, strategy: Strategy, machine: number, group: number, ask: TrialAsk): Played {
  const faults = met.truth.drawn.faults.map(({ id }) => id);
  let leastTrue = 1;
  let notOnThisSheet = 0;
  const technician = {
    swap: bySwapping,
    test: byTesting,
    plan: byPlan((belief, { hidden }) => {
      notOnThisSheet = belief.notOnThisSheet;
      if (!hidden.honest) return;
      for (const { id } of hidden.faults) {
        leastTrue = Math.min(leastTrue, belief.modes.find(({ mode }) => mode === id)?.p ?? 0);
      }
    }),
  }[strategy];
  const history = workOn(desk, met, technician);
  const bill = billOf(history, desk.machine, ask.shop);
  const frame = { machine, group, strategy, fault: faults.join(" & "), bill };
  return strategy === "plan" ? { ...frame, leastTrue, notOnThisSheet } : frame;
}
