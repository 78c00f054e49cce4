import { seeded } from "../chance/index.ts";
import { combinations } from "../sheet/index.ts";
import { type Bill, billOf } from "./bill.ts";
import { byPlan } from "./by-plan.ts";
import { bySwapping } from "./by-swapping.ts";
import { byTesting } from "./by-testing.ts";
import { type Met, meetMachine, workOn } from "./call.ts";
import { USUAL_ERRORS } from "./errors.ts";
import type { History } from "./history.ts";
import { type MachineType, type TypeAsk, typeOf } from "./machine-type.ts";
import type { Desk } from "./technician.ts";

/** Ways of working that are compared. */
export const STRATEGIES = ["plan", "swap", "test"] as const;
export type Strategy = (typeof STRATEGIES)[number];

/** What is simulated. */
export interface TrialAsk extends TypeAsk {
  readonly seed: string;
  readonly strategies: readonly Strategy[];
}

/** One job of one technician on one machine. */
export interface Played {
  /** Number of the machine; all strategies meet the same. */
  readonly machine: number;
  /** Number of its block: machines of one block are of one type. */
  readonly block: number;
  readonly sheet: "right" | "wrong";
  readonly strategy: Strategy;
  readonly fault: string;
  readonly bill: Bill;
  /** What was done to it, in order, and whether that was meant for anything that was wrong. */
  readonly did: readonly { readonly remedy: string; readonly right: boolean }[];
  /** Of the plan with a right sheet: the least odds a true cause had while no slip and no false answer had been met. */
  readonly leastTrue?: number;
  /** Of the plan: odds of something not on this sheet, when the job ended. */
  readonly notOnThisSheet?: number;
  /** Of the plan: the least odds that a fault still there had when the job ended; 1 where none was. */
  readonly leastAtEnd?: number;
}

/**
 * Machines of one type are played together, since what was worked out for one of them serves the next. The number is fixed,
 * so that a machine is the same however many are played.
 */
const MACHINES_OF_A_TYPE = 50;

/** How many blocks so many machines are. */
export function blockCount(machines: number): number {
  return Math.ceil(machines / MACHINES_OF_A_TYPE);
}

/** The block that a machine is in. */
export function blockOf(machine: number): number {
  return Math.floor(machine / MACHINES_OF_A_TYPE);
}

/**
 * Plays all jobs of one block: machines of one type, drawn by its share. The seed and a machine's number settle everything
 * about it, so that it does not matter who plays it, when, or beside how many others.
 *
 * @param machines  how many there are in all blocks together
 * @returns         by machine, then by sheet, then by strategy
 */
export function playBlock(ask: TrialAsk, block: number, machines: number): readonly Played[] {
  const type = typeOfBlock(ask, block);
  const first = block * MACHINES_OF_A_TYPE;
  const played: Played[] = [];
  for (let n = first; n < Math.min(machines, first + MACHINES_OF_A_TYPE); n++) {
    const met = meetMachine(type, ask.shop, seeded(ask.seed).fork(`machine ${n}`), USUAL_ERRORS);
    for (const { sheet, desk } of desksOf(type)) {
      for (const strategy of ask.strategies)
        played.push(play(desk, met, strategy, { machine: n, block, sheet }).played);
    }
  }
  return played;
}

/** One machine by its number, each job with its whole history. */
export function playMachine(
  ask: TrialAsk,
  machine: number,
): readonly { readonly played: Played; readonly history: History }[] {
  const block = blockOf(machine);
  const type = typeOfBlock(ask, block);
  const met = meetMachine(type, ask.shop, seeded(ask.seed).fork(`machine ${machine}`), USUAL_ERRORS);
  return desksOf(type).flatMap(({ sheet, desk }) =>
    ask.strategies.map((strategy) => play(desk, met, strategy, { machine, block, sheet })),
  );
}

function typeOfBlock(ask: TrialAsk, block: number): MachineType {
  const random = seeded(ask.seed).fork(`type ${block}`);
  const types = combinations(ask.sheet);
  const { choice } = types[random.pick(types.map(({ weight }) => weight))];
  return typeOf(ask, choice, random.fork("sheet"));
}

function desksOf({ right, wrong }: MachineType): readonly { readonly sheet: Played["sheet"]; readonly desk: Desk }[] {
  return [{ sheet: "right", desk: right }, ...(wrong === undefined ? [] : [{ sheet: "wrong" as const, desk: wrong }])];
}

function play(
  desk: Desk,
  met: Met,
  strategy: Strategy,
  about: Pick<Played, "machine" | "block" | "sheet">,
): { readonly played: Played; readonly history: History } {
  let leastTrue = 1;
  let notOnThisSheet = 0;
  let leastAtEnd = 1;
  const technician = {
    swap: bySwapping,
    test: byTesting,
    plan: byPlan((belief, { hidden }) => {
      notOnThisSheet = belief.notOnThisSheet;
      const odds = hidden.faults.map(({ id }) => belief.modes.find(({ mode }) => mode === id)?.p ?? 0);
      leastAtEnd = Math.min(1, ...odds);
      if (hidden.honest) leastTrue = Math.min(leastTrue, ...odds);
    }),
  }[strategy];
  const history = workOn(desk, met, technician);
  const played: Played = {
    ...about,
    strategy,
    fault: faultSays(met),
    bill: billOf(history, desk.machine, desk.shop),
    did: [...history.remedies.values()].map(({ course, right }) => ({ remedy: course.id, right })),
    ...(strategy === "plan" ? { notOnThisSheet, leastAtEnd } : {}),
    ...(strategy === "plan" && about.sheet === "right" ? { leastTrue } : {}),
  };
  return { played, history };
}

/** "heater/open & lint", "lock/contact now and then, 1 in 10" */
function faultSays({ truth: { drawn } }: Met): string {
  const names = drawn.faults.map(({ id }) => id).join(" & ");
  return drawn.failsOn < 1 ? `${names} now and then, ${Math.round(drawn.failsOn * 100)} in 100` : names;
}
