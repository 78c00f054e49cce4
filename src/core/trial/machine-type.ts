import type { Random } from "../chance/index.ts";
import type { Meter } from "../meter/index.ts";
import type { Shop } from "../remedy/index.ts";
import { assemble, combinations, type Library, type Machine, type Sheet } from "../sheet/index.ts";
import { caseFrom, type ForeseenCase, foreseeing } from "../suspect/index.ts";
import { repairsById } from "./repairs.ts";
import { type Desk, goodAnswersOf } from "./technician.ts";
import { oneSlotWrong, partLeftOut, ratesOff, type WrongSheet, without } from "./wrong-sheet.ts";

/** What a type of machine is made of. */
export interface TypeAsk {
  readonly sheet: Sheet;
  readonly library: Library;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
  readonly wrong?: WrongSheet;
}

/** Machines of one type, as they are, and as the technician's sheet has them. */
export interface MachineType {
  readonly truth: ForeseenCase;
  /** What a technician has whose sheet is right. */
  readonly right: Desk;
  /** What a technician has whose sheet is wrong, where that is asked for. */
  readonly wrong?: Desk;
  /** Only faults of this part or cause are drawn: what the wrong sheet leaves out. */
  readonly leftOut?: string;
}

/** Pairs of unrelated faults that are held; the likeliest of tens of thousands. */
const PAIRS = 4000;

/** Opens the case of one type of machine. */
export function typeOf(ask: TypeAsk, choice: ReadonlyMap<string, string>, random: Random): MachineType {
  const own = foreseeing(machineOf(ask, choice));
  const truth = caseFrom([{ foresight: own, weight: 1 }], { pairsAtMost: PAIRS });
  const right = deskOf(truth, ask.shop, ask.meters);
  if (ask.wrong === undefined) return { truth, right };
  const leftOut = ask.wrong === "missing-part" ? partLeftOut(own, random) : undefined;
  const other =
    leftOut !== undefined
      ? without(own, leftOut)
      : ask.wrong === "rates"
        ? ratesOff(own, random)
        : foreseeing(machineOf(ask, oneSlotWrong(choice, combinations(ask.sheet), random)));
  const wrong = deskOf(caseFrom([{ foresight: other, weight: 1 }], { pairsAtMost: PAIRS }), ask.shop, ask.meters);
  return { truth, right, wrong, ...(leftOut === undefined ? {} : { leftOut }) };
}

/** What a technician has of a machine whose type is known. */
export function deskOf(the: ForeseenCase, shop: Shop, meters: ReadonlyMap<string, Meter>): Desk {
  const [{ machine, modes }] = the.candidates;
  const bench = { machine, shop, meters };
  return { ...bench, case: the, repairs: repairsById(bench, modes), goodAnswers: goodAnswersOf(the) };
}

function machineOf({ sheet, library }: TypeAsk, choice: ReadonlyMap<string, string>): Machine {
  const made = assemble(sheet, library, choice, []);
  if (!made.ok) throw new Error(`trial: a combination of the sheet does not assemble: ${made.issues[0]?.found}`);
  return made.value;
}
