import { again, coursesFor, type Shop } from "../remedy/index.ts";
import type { Observation } from "../sign/index.ts";
import { afterRemedy, type Belief, type ForeseenCase, type Remedied } from "../suspect/index.ts";
import type { JobState } from "./fold-job.ts";

/** Chance that a remedy cured when the technician says it did, or did not: neither is quite proof (from memory). */
const SAID_CURED = 0.97;
const SAID_NOT_CURED = 0.03;
/** Chance that something done to the right part in words of its own has cured it (from memory). */
const OWN_WORDS_CURED = 0.85;

/** A case carried over the first so many repairs of a job. */
export interface Carried {
  readonly case: ForeseenCase;
  readonly repairs: number;
}

/** What a whole job comes to. */
export interface BelievedJob {
  /** The case as it stands after the last repair. */
  readonly case: ForeseenCase;
  readonly belief: Belief;
  /** Observations that speak of the machine as it is now: those since the last repair. */
  readonly observations: readonly Observation[];
}

/**
 * Believes a whole job: what was seen before a repair speaks of the old part, what is seen after it of the new, so the
 * case is carried over each repair in turn.
 *
 * @param opened  the case as opened, before any observation; or as an earlier, shorter state of the same job left it
 */
export function believeJob(opened: ForeseenCase | Carried, state: JobState, shop: Shop): BelievedJob {
  const from = "repairs" in opened ? opened : { case: opened, repairs: 0 };
  let the = from.case;
  let done = from.repairs === 0 ? 0 : state.repairs[from.repairs - 1].after;
  for (const [n, repair] of state.repairs.entries()) {
    if (n < from.repairs) continue;
    const before = state.observations.slice(done, repair.after).map(({ observation }) => observation);
    const times = state.repairs.slice(0, n).filter((one) => idOf(one) === idOf(repair)).length;
    the = afterRemedy(the, the.update(before), remedied(the, repair, times, shop));
    done = repair.after;
  }
  const observations = state.observations.slice(done).map(({ observation }) => observation);
  return { case: the, belief: the.update(observations), observations };
}

type DoneRepair = JobState["repairs"][number];

/** The course that was done, as remedies are named. */
function idOf({ on, remedy }: DoneRepair): string {
  return remedy.startsWith(`${on}/`) ? remedy : `${on}/${remedy}`;
}

/** The modes a repair is meant for, and how surely it cures them, done so often before. */
function remedied(the: ForeseenCase, repair: DoneRepair, times: number, shop: Shop): Remedied {
  const id = idOf(repair);
  const meant = new Set<string>();
  const ofPart = new Set<string>();
  let cured: number | undefined;
  for (const { machine, modes } of the.candidates) {
    for (const mode of modes) {
      const part = machine.parts[mode.part];
      const cause = machine.causes[mode.cause];
      const host = part?.joint?.part;
      if (part?.id === repair.on || host === repair.on || part?.of === repair.on || cause?.id === repair.on) {
        ofPart.add(mode.id);
      }
      const course = coursesFor(machine, mode, shop).find((one) => one.id === id);
      if (course === undefined) continue;
      meant.add(mode.id);
      cured ??= again(course, times)?.cured ?? 0;
    }
  }
  const said = repair.worked === undefined ? undefined : repair.worked ? SAID_CURED : SAID_NOT_CURED;
  return { modes: meant.size > 0 ? meant : ofPart, cured: said ?? cured ?? OWN_WORDS_CURED };
}
