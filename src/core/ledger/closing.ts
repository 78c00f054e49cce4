import {
  type ContactAtLoad,
  contactOfDrop,
  contactOfOhms,
  type HeatUp,
  type HeatUpProof,
  type OperationsProof,
  proveByHeatUp,
  proveByOperations,
} from "../proof/index.ts";
import { type Estimate, estimate, type Rated, standardUncertainty } from "../quantity/index.ts";
import type { CloseOutCheck, LoggedPower, Unproved, UnsafeNotice } from "./closing-event.ts";
import type { JobEvent } from "./job.ts";
import { withdrawnEvents } from "./known.ts";
import { namesOf } from "./machine-names.ts";
import { type PutBackItem, putBackOf } from "./put-back.ts";
import { type Energised, type RulesOf, SafetyRow, type SafetyTaken } from "./safety-row.ts";
import type { WorkedJob } from "./work-out.ts";

/** What an act after the repair proved of it. `says` names the part, or the two points that were counted. */
export type Proved =
  | {
      readonly kind: "operated";
      readonly says: string;
      readonly good: number;
      readonly of: number;
      readonly proof: OperationsProof;
      readonly minutesEach?: number;
    }
  | { readonly kind: "loaded"; readonly says: string; readonly by: "drop" | "ohms"; readonly contact: ContactAtLoad }
  | { readonly kind: "heated"; readonly says: string; readonly heat: HeatUp; readonly proof: HeatUpProof }
  | { readonly kind: "logged"; readonly says: string; readonly log: LoggedPower };

/** A proof with the event that told it last, and what it is of: the id of a part, the first point of a count. */
export type ProvedBy = Proved & { readonly on: string; readonly event: string };

/** Everything between the last repair and the door. */
export interface Closing {
  readonly proved: readonly ProvedBy[];
  readonly safety?: SafetyTaken;
  readonly putBack: readonly PutBackItem[];
  readonly checks: ReadonlyMap<CloseOutCheck, boolean>;
  readonly unproved: readonly (Unproved & { readonly event: string })[];
  readonly left?: { readonly waitingFor: string; readonly madeSafe: readonly string[] };
  readonly notices: readonly UnsafeNotice[];
  /** It was energised after a repair while its tests did not allow it, and how: that stays on the record. */
  readonly energisedEarly?: Energised;
  /** So it was, and no row of tests was begun since: what had been taken before says nothing of what the power did. */
  readonly owesNewTests: boolean;
  /** Look, earth (where there is one) and insulation passed since the last repair, or cannot be made; nothing failed. */
  readonly mayEnergise: boolean;
  /** A test that keeps it unplugged failed. */
  readonly hasFailed: boolean;
  /** Nothing was opened with a tool, no connector was off and no part was mended: only what a customer may do was done. */
  readonly isUntouched: boolean;
}

/**
 * Folds what was noted between the repair and the door. A repair of a part takes away what was proved of it before; a
 * repair, an opened cover or a new look begins the row of safety tests anew, and the hands' checks with it.
 *
 * @param rulesOf  the rule sets that are known: without that which the job chose, a metered test counts once it is taken
 */
export function closingOf(worked: WorkedJob, rulesOf: RulesOf): Closing {
  const names = namesOf(worked.case.candidates.map(({ machine }) => machine));
  const idOf = (name: string): string => {
    const meaning = names.mended.mean(name);
    return meaning.is === "one" ? meaning.id : name;
  };
  const withdrawn = withdrawnEvents(worked.job);
  const events = worked.job.events.filter(({ id }) => !withdrawn.has(id));
  const row = new SafetyRow(worked.meters, rulesOf);
  const causes = new Set(worked.case.candidates.flatMap(({ machine }) => machine.causes.map(({ id }) => id)));
  const isRunning = runningSigns(worked);
  let proved: ProvedBy[] = [];
  let checks = new Map<CloseOutCheck, boolean>();
  let unproved: Closing["unproved"] = [];
  let left: Closing["left"];
  let repaired = false;
  let mendedPart = false;
  let energisedEarly: Energised | undefined;
  let owesNewTests = false;
  const notices: UnsafeNotice[] = [];
  for (const event of events) {
    switch (event.kind) {
      case "did": {
        const on = idOf(event.on);
        proved = proved.filter((one) => one.on !== WHOLE && one.on !== on && !one.on.startsWith(`${on}.`));
        unproved = [];
        mendedPart ||= !causes.has(on);
        checks = new Map();
        row.beginAnew();
        repaired = true;
        energisedEarly = undefined;
        owesNewTests = false;
        left = undefined;
        break;
      }
      case "opened":
        checks = new Map();
        row.beginAnew();
        break;
      case "counted":
      case "operated":
      case "loaded":
      case "heated":
      case "logged":
        if (event.kind === "counted" && !repaired) break;
        proved = together(
          proved,
          provedBy(event, (name) => sayingOf(worked, idOf(name)), idOf),
        );
        break;
      case "checked":
        checks = new Map([...checks, ...event.checks]);
        break;
      case "unproved":
        unproved = [...unproved, { ...event, event: event.id }];
        break;
      case "left":
        left = { waitingFor: event.waitingFor, madeSafe: event.madeSafe };
        break;
      case "notice":
        notices.push(event);
        break;
      case "safety":
        row.setting = event;
        break;
      case "tested":
        row.take(event);
        if (event.test === "look") owesNewTests = false;
        break;
      default:
        break;
    }
    const forbids = repaired && energises(event, isRunning) ? row.forbids : undefined;
    if (forbids !== undefined) {
      energisedEarly = energisedEarly === "after a failed test" ? energisedEarly : forbids;
      owesNewTests = true;
    }
  }
  const safety = row.conclude();
  const putBack = putBackOf(worked, events);
  const covers = worked.case.candidates.flatMap(({ machine }) => machine.access);
  const byHand = new Set(covers.flatMap(({ says, tools }) => (tools.length === 0 ? [says] : [])));
  const isByHand = putBack.every(({ cover }) => cover !== undefined && byHand.has(cover));
  const isUntouched = repaired && !mendedPart && isByHand;
  return {
    proved,
    ...(safety === undefined ? {} : { safety }),
    putBack,
    checks,
    unproved,
    ...(left === undefined ? {} : { left }),
    notices,
    ...(energisedEarly === undefined || isUntouched ? {} : { energisedEarly }),
    owesNewTests: owesNewTests && !isUntouched,
    mayEnergise: row.forbids === undefined,
    hasFailed: row.forbids === "after a failed test",
    isUntouched,
  };
}

/** Signs that show only while the machine works: the circuit tells when they are true. */
function runningSigns({ case: { candidates } }: WorkedJob): (sign: string) => boolean {
  const signs = candidates.flatMap(({ machine }) => machine.signs);
  const running = new Set(signs.flatMap(({ id, ask, rule }) => (rule.kind === "table" ? [] : [id, ask])));
  return (sign) => running.has(sign);
}

function energises(event: JobEvent, isRunning: (sign: string) => boolean): boolean {
  return (
    (event.kind === "seen" && event.answers.some(({ sign }) => isRunning(sign))) ||
    event.kind === "energised" ||
    event.kind === "heated" ||
    event.kind === "loaded" ||
    (event.kind === "measured" && event.set.state.kind === "live")
  );
}

/** What is proved of the whole machine: any repair takes it away. */
const WHOLE = "";

/** Operations of one part are one proof, however many times they were written down. */
function together(proved: readonly ProvedBy[], one: ProvedBy): ProvedBy[] {
  const before = proved.find(({ kind, on }) => kind === one.kind && on === one.on);
  if (one.kind !== "operated" || before?.kind !== "operated") return [...proved, one];
  const good = before.good + one.good;
  const of = before.of + one.of;
  const minutes = one.minutesEach ?? before.minutesEach;
  const more = minutes === undefined ? {} : { minutesEach: minutes };
  return [
    ...proved.filter((other) => other !== before),
    { ...one, good, of, proof: proveByOperations(good, of), ...more },
  ];
}

type ProofEvent = JobEvent & { readonly kind: "counted" | "operated" | "loaded" | "heated" | "logged" };

function provedBy(event: ProofEvent, saying: (name: string) => string, idOf: (name: string) => string): ProvedBy {
  const by = { event: event.id };
  switch (event.kind) {
    case "counted": {
      const { good, of, from = "", to = "" } = event;
      const says = `${from} to ${to}`;
      return { ...by, kind: "operated", on: from, says, good, of, proof: proveByOperations(good, of) };
    }
    case "operated": {
      const { good, of, minutesEach } = event;
      const more = minutesEach === undefined ? {} : { minutesEach };
      return {
        ...by,
        kind: "operated",
        on: idOf(event.on),
        says: saying(event.on),
        good,
        of,
        proof: proveByOperations(good, of),
        ...more,
      };
    }
    case "loaded": {
      const amperes = asEstimate("amperes", event.amperes);
      const reading = asEstimate(event.by, event.reading);
      const contact = event.by === "drop" ? contactOfDrop(reading, amperes) : contactOfOhms(reading, amperes);
      return { ...by, kind: "loaded", on: idOf(event.on), says: saying(event.on), by: event.by, contact };
    }
    case "heated":
      return { ...by, kind: "heated", on: WHOLE, says: "heat-up", heat: event.heat, proof: proveByHeatUp(event.heat) };
    case "logged":
      return { ...by, kind: "logged", on: WHOLE, says: "log of the power at the plug", log: event };
  }
}

function sayingOf({ case: { candidates } }: WorkedJob, id: string): string {
  const things = candidates.flatMap(({ machine }) => [...machine.parts, ...machine.assemblies, ...machine.causes]);
  return things.find((one) => one.id === id)?.says ?? id;
}

function asEstimate(name: string, rated: Rated): Estimate {
  return estimate(rated.nominal, { [name]: standardUncertainty(rated) });
}
