import { foldJob, type Job, type JobEvent, type JobState } from "../ledger/index.ts";
import { waitFor } from "../plan/index.ts";
import type { Course } from "../remedy/index.ts";
import type { ForeseenCase } from "../suspect/index.ts";
import type { Bench, Hands } from "./hands.ts";
import type { History } from "./history.ts";

/** What a technician knows before the door opens: the type of the machine, its possible faults, and their odds. */
export interface Desk extends Bench {
  readonly case: ForeseenCase;
  /** Everything that can be done to it, by id. */
  readonly repairs: ReadonlyMap<string, Course>;
  /** What a good machine of this type answers to each sign. */
  readonly goodAnswers: ReadonlyMap<string, string>;
}

/** A way of working, from the complaint to a mended machine or to giving up. What was told stands in the hands' events. */
export type Technician = (desk: Desk, hands: Hands) => History;

/** Nobody waits longer than this for a machine to show a sign when a repair is proved (from memory). */
const LONGEST_PROOF_MINUTES = 15;

/** What a good machine of this type answers to each sign. */
export function goodAnswersOf(the: ForeseenCase): ReadonlyMap<string, string> {
  const [foresight] = the.foresights;
  return new Map(
    foresight.machine.signs.map((sign) => {
      const chances = Array.from(foresight.answers(sign, []));
      return [sign.id, sign.answers[chances.indexOf(Math.max(...chances))]];
    }),
  );
}

/** Signs that were told otherwise than a good machine has them. */
export function complaintOf(desk: Desk, events: readonly JobEvent[]): readonly string[] {
  return events.flatMap((event) =>
    event.kind === "told"
      ? event.answers.filter(({ sign, answer }) => desk.goodAnswers.get(sign) !== answer).map(({ sign }) => sign)
      : [],
  );
}

/**
 * Proves a repair: lets the machine run and watches what was complained of, as far as it shows within a quarter of an
 * hour. A complaint that does not show on site is taken for mended.
 *
 * @returns does it work, as far as can be seen?
 */
export function prove(desk: Desk, hands: Hands): boolean {
  const signs = desk.machine.signs.filter(
    (sign) =>
      sign.rule.kind !== "when-first" &&
      (sign.in !== undefined || sign.rule.kind !== "table") &&
      waitFor(sign) <= LONGEST_PROOF_MINUTES,
  );
  const complaint = complaintOf(desk, hands.events);
  const watched = signs.map(({ id }) => id).filter((id) => complaint.includes(id));
  const before = hands.events.length;
  hands.ask(watched, "seen");
  return hands.events
    .slice(before)
    .every((event) =>
      event.kind === "seen" ? event.answers.every(({ sign, answer }) => desk.goodAnswers.get(sign) === answer) : true,
    );
}

/** A job of these events, as the ledger folds it. */
export function foldOf(desk: Desk, events: readonly JobEvent[]): JobState {
  const folded = foldJob(jobOf(desk, events), [desk.machine], desk.shop, desk.meters);
  if (!folded.ok) throw new Error(`trial: a job of its own making is refused: ${folded.issues[0]?.found}`);
  return folded.value;
}

function jobOf(desk: Desk, events: readonly JobEvent[]): Job {
  return {
    id: "trial",
    sheet: { kind: "family", name: desk.machine.title },
    machine: { answers: new Map(), differs: [], plate: new Map() },
    shop: desk.shop.id,
    customer: {},
    complaint: "",
    events,
  };
}
