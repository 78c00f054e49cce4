import {
  closingOf,
  type Job,
  type JobEvent,
  knownAnswers,
  planning,
  type RulesOf,
  readGood,
  verificationOf,
  type WorkedJob,
} from "../../../core/ledger/index.ts";
import type { Pieces } from "../../../core/pace/index.ts";
import { outlook, type Plan } from "../../../core/plan/index.ts";
import { type Machine, type Sheet, slotWords } from "../../../core/sheet/index.ts";
import { explain, type Legs, legs } from "../../../core/suspect/index.ts";
import { type Traced, traceBetween } from "../../../core/trace/index.ts";
import { eventInBrief } from "../../words/job-event.ts";
import { observationInWords } from "../../words/observation.ts";
import { isInOrder, verificationList } from "../../words/verification.ts";
import type { Desk, Family, FaultOdds, FaultReasons, JobView } from "./protocol.ts";

/** Events that are told as what was observed, in their own words, or not at all. */
const TOLD_OTHERWISE: ReadonlySet<JobEvent["kind"]> = new Set([
  "told",
  "heard",
  "seen",
  "looked",
  "measured",
  "counted",
  "note",
  "unknown",
  "withdraws",
]);

/** What an observation of a job says, by its index. */
function observed({ case: known, observations }: WorkedJob): (index: number) => string {
  const signs = known.candidates[0]?.machine.signs ?? [];
  return (index) => {
    const observation = observations[index];
    return observation === undefined ? "" : observationInWords(observation, signs);
  };
}

/** How likely each fault is. */
export function oddsOf({ belief }: WorkedJob): FaultOdds {
  const { parts, nothingWrong, notOnThisSheet, severalFaults } = belief;
  return { parts, nothingWrong, notOnThisSheet, severalFaults };
}

/** Why each way to fail is held as likely as it is, in words. */
export function reasonsOf(worked: WorkedJob): readonly FaultReasons[] {
  const words = observed(worked);
  return explain(worked.case, worked.observations, worked.belief, { modesAtMost: 8 }).map(
    ({ observations: points, ...rest }) => ({
      ...rest,
      seen: points
        .filter(({ overruled }) => !overruled)
        .map(({ observation, predicted, weight }) => ({ says: words(observation), predicted, weight })),
    }),
  );
}

/** How far the blame of each assembly is proved. */
export function boardsOf(worked: WorkedJob): readonly Legs[] {
  return legs(worked.case, worked.observations, worked.belief);
}

/** All that the screens show of a job, its next step with it; in pieces, since the next step takes long. */
export function* viewing(worked: WorkedJob, where: "telephone" | "machine", rulesOf: RulesOf): Pieces<JobView> {
  const { belief, state, sheet, shop } = worked;
  const machines = worked.case.candidates.map(({ machine }) => machine);
  const signs = machines[0]?.signs ?? [];
  const { worst } = belief;
  const plan = yield* planning(worked, where);
  const verification = verificationOf(worked);
  const closing = verification === undefined ? undefined : closingOf(worked, rulesOf);
  return {
    plan,
    ways: waysOf(plan, machines[0]),
    belief: oddsOf(worked),
    ...(worst?.contradicts === true ? { worst: observed(worked)(worst.observation) } : {}),
    readGood: readGood(worked),
    work: state.work,
    ...(verification === undefined || closing === undefined
      ? {}
      : {
          verification: {
            ...verificationList(verification, plan.unanswered),
            repair: `${verification.repair.says}: ${verification.repair.remedy}`,
            finished: verification.finished,
            stillAmiss: verification.stillAmiss.map((observation) => observationInWords(observation, signs)),
            inOrder: isInOrder(belief),
            mayEnergise: closing.mayEnergise || closing.isUntouched,
            hasFailed: closing.hasFailed,
            isUntouched: closing.isUntouched,
          },
        }),
    told: [
      ...state.observations.map(({ event, observation }) => ({
        event: placeOf(event),
        says: observationInWords(observation, signs),
      })),
      ...worked.job.events.flatMap((event) =>
        machines[0] === undefined || TOLD_OTHERWISE.has(event.kind)
          ? []
          : [{ event: placeOf(event.id), says: eventInBrief(event, machines[0]) }],
      ),
    ],
    desk: deskOf(machines, sheet, worked.job),
    covers: Object.fromEntries(machines.flatMap(({ access }) => access.map(({ id, says }) => [id, says]))),
    title: sheet.title,
    currency: shop.currency,
    perHour: shop.perHour,
    timeStopMinutes: shop.timeStopMinutes,
    ...(where === "telephone" ? { outlook: outlook(worked.case, belief, shop, worked.job.machine.ageYears) } : {}),
  };
}

/** Events of a job file are `e1`, `e2` ... */
function placeOf(event: string): number {
  return Number(event.replace(/^e/, ""));
}

/** Slots of a sheet as a form asks them. */
export function slotsOf(sheet: Sheet): Family["slots"] {
  return [...slotWords(sheet)].map(([id, { ask, looks }]) => ({
    id,
    ask,
    variants: [...looks].map(([variant, look]) => ({ id: variant, look })),
  }));
}

/** Everything that any of the machines has, named once. */
function deskOf(machines: readonly Machine[], sheet: Sheet, job: Job): Desk {
  const once = <T extends { readonly id: string }>(of: (machine: Machine) => readonly T[]): readonly T[] => [
    ...new Map(machines.flatMap((machine) => of(machine).map((one) => [one.id, one]))).values(),
  ];
  const known = knownAnswers(job);
  const named = ({ id, says }: { readonly id: string; readonly says: string }) => ({ id, says });
  return {
    points: once(({ points }) => points).map(named),
    plugs: once(({ plugs }) => plugs).map(({ id }) => id),
    parts: [
      ...once(({ parts }) => parts.filter(({ joint }) => joint === undefined)),
      ...once(({ causes }) => causes),
    ].map(named),
    differing: once(({ parts }) => parts.filter(({ joint }) => joint === undefined))
      .filter(({ id }) => machines.every(({ parts }) => parts.some((part) => part.id === id)))
      .map(({ id, says, instance }) => ({ id, says, ratings: [...instance.ratings.keys()] })),
    steps: once(({ steps }) => steps).map(({ id }) => id),
    signs: once(({ signs }) => signs).map(({ id, ask, answers }) => ({ id, ask, answers })),
    slots: slotsOf(sheet).filter(({ id }) => !known.has(id)),
  };
}

/** What lies between the points of every reading that the plan offers, on the commonest machine that is still possible. */
function waysOf(plan: Plan, machine: Machine | undefined): Readonly<Record<string, readonly Traced[]>> {
  if (machine === undefined) return {};
  const probes = plan.steps.flatMap((step) =>
    step.questions.flatMap(({ probe }) => (probe === undefined ? [] : [probe])),
  );
  return Object.fromEntries(
    probes.map(({ id, from, to, state }) => [
      id,
      from === undefined || to === undefined
        ? []
        : traceBetween(machine, from, to, state.kind === "dead" ? state : { pulled: [], freed: [] }),
    ]),
  );
}
