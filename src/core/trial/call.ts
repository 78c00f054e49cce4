import type { Random } from "../chance/index.ts";
import type { Shop } from "../remedy/index.ts";
import { meansMode, type Observation } from "../sign/index.ts";
import { liveHypotheses, natsTold } from "../suspect/index.ts";
import { drawMachine } from "./drawn-machine.ts";
import type { Errors } from "./errors.ts";
import { Hands } from "./hands.ts";
import { HiddenMachine, Truth } from "./hidden-machine.ts";
import type { History } from "./history.ts";
import type { MachineType } from "./machine-type.ts";
import type { Desk, Technician } from "./technician.ts";

/** A machine somebody calls about, and what they complain of, in the order of the sheet. */
export interface Met {
  readonly truth: Truth;
  readonly complaints: readonly string[];
}

/** Questions that the shop asks on the telephone, whatever the complaint ("five good questions"). */
const QUESTIONS = 5;
/** Machines that are drawn before giving up on finding one that anybody would call about. */
const MOST_DRAWS = 50;

/** Draws until a machine shows something that its owner takes for wrong, and calls about. */
export function meetMachine(type: MachineType, shop: Shop, random: Random, errors: Errors): Met {
  const met = findMachine(type, shop, random, errors, type.leftOut);
  if (met === undefined) throw new Error(`trial: ${MOST_DRAWS} machines drawn, and none that anybody would call about`);
  return met;
}

/**
 * The same, where there may be none.
 *
 * @param among  only faults of this part or cause, or `part/way of failing`
 */
export function findMachine(
  type: MachineType,
  shop: Shop,
  random: Random,
  errors: Errors,
  among: string | undefined,
): Met | undefined {
  const [{ machine }] = type.truth.candidates;
  for (let draws = 0; draws < MOST_DRAWS; draws++) {
    const own = random.fork(`draw ${draws}`);
    const drawn = drawMachine(type.truth, own.fork("machine"), {
      spread: errors.meters,
      ...(among === undefined
        ? {}
        : { among: ({ modes }) => modes.length === 1 && meansMode(among, modes[0], machine) }),
    });
    const truth = new Truth(drawn, own.fork("answers"), errors, shop);
    const hidden = new HiddenMachine(truth);
    const complaints = hidden
      .complaints()
      .map(({ id }) => id)
      .filter((id) => hidden.answer(id, "told", "") !== type.right.goodAnswers.get(id));
    if (complaints.length > 0) return { truth, complaints };
  }
  return undefined;
}

/** What is told on the telephone: the shop's five questions, and what made them call where none of the five meets it. */
export function toldTo(desk: Desk, { complaints }: Met): readonly string[] {
  const asked = questionsOf(desk);
  if (complaints.some((id) => asked.includes(id))) return asked;
  const complaint = complaints.find((id) => desk.machine.signs.some((sign) => sign.id === id));
  return complaint === undefined ? asked : [...asked, complaint];
}

const questions = new WeakMap<Desk, readonly string[]>();

/** The telephone questions that tell the most about what is wrong, before anything is known. */
export function questionsOf(desk: Desk): readonly string[] {
  const known = questions.get(desk);
  if (known !== undefined) return known;
  const live = liveHypotheses(desk.case.update([]));
  const told = desk.machine.signs.map((sign) => {
    const asked: Observation = { kind: "sign", sign: sign.id, answer: sign.answers[0], witness: "told" };
    return { id: sign.id, nats: natsTold(desk.case.outcomes(asked, live), live.weights) };
  });
  told.sort((a, b) => b.nats - a.nats || (a.id < b.id ? -1 : 1));
  const best = told.slice(0, QUESTIONS).map(({ id }) => id);
  questions.set(desk, best);
  return best;
}

/** One technician at one machine, from the telephone on. */
export function workOn(desk: Desk, met: Met, technician: Technician): History {
  const hands = new Hands(desk, new HiddenMachine(met.truth));
  hands.ask(toldTo(desk, met), "told");
  return technician(desk, hands);
}
