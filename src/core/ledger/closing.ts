import { type Meter, type Quantity, readingEstimate } from "../meter/index.ts";
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
import type { MeteredTest, SafetyFindings, SafetyReading, SafetyTest } from "../safety/index.ts";
import type { CloseOutCheck, ClosingEvent, SafetySetting, TestTaken, Unproved, UnsafeNotice } from "./closing-event.ts";
import type { JobEvent } from "./job.ts";
import { withdrawnEvents } from "./known.ts";
import { namesOf } from "./machine-names.ts";
import { type PutBackItem, putBackOf } from "./put-back.ts";
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
  | { readonly kind: "heated"; readonly says: string; readonly heat: HeatUp; readonly proof: HeatUpProof };

/** The safety tests as they stand: everything since the last look, or since the machine was last opened or mended. */
export interface SafetyTaken {
  readonly setting: SafetySetting;
  readonly findings: SafetyFindings;
  /** How each test was taken. */
  readonly taken: ReadonlyMap<SafetyTest, TestTaken>;
}

/** Everything between the last repair and the door. */
export interface Closing {
  readonly proved: readonly Proved[];
  readonly safety?: SafetyTaken;
  readonly putBack: readonly PutBackItem[];
  readonly checks: ReadonlyMap<CloseOutCheck, boolean>;
  readonly unproved: readonly Unproved[];
  readonly left?: { readonly waitingFor: string; readonly madeSafe: readonly string[] };
  readonly notices: readonly UnsafeNotice[];
  /** It was energised after a repair before look, earth and insulation were all taken. */
  readonly energisedEarly: boolean;
}

/** What each test reads. */
const QUANTITY: Readonly<Record<MeteredTest, Quantity>> = {
  earth: "ohms",
  insulation: "insulation ohms",
  "protective current": "leakage amps",
  "touch current": "leakage amps",
};

/**
 * Folds what was noted between the repair and the door. A repair of a part takes away what was proved of it before; a
 * repair, an opened cover or a new look begins the row of safety tests anew, and the hands' checks with it.
 */
export function closingOf(worked: WorkedJob): Closing {
  const names = namesOf(worked.case.candidates.map(({ machine }) => machine));
  const idOf = (name: string): string => {
    const meaning = names.mended.mean(name);
    return meaning.is === "one" ? meaning.id : name;
  };
  const withdrawn = withdrawnEvents(worked.job);
  const events = worked.job.events.filter(({ id }) => !withdrawn.has(id));
  const row = new SafetyRow(worked.meters);
  let proved: (Proved & { readonly on: string })[] = [];
  let checks = new Map<CloseOutCheck, boolean>();
  let unproved: Unproved[] = [];
  let left: Closing["left"];
  let repaired = false;
  let energisedEarly = false;
  const notices: UnsafeNotice[] = [];
  for (const event of events) {
    switch (event.kind) {
      case "did": {
        const on = idOf(event.on);
        proved = proved.filter((one) => one.kind !== "heated" && one.on !== on && !one.on.startsWith(`${on}.`));
        unproved = [];
        checks = new Map();
        row.beginAnew();
        repaired = true;
        energisedEarly = false;
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
        if (event.kind === "counted" && !repaired) break;
        proved = [...proved, provedBy(event, (name) => sayingOf(worked, idOf(name)), idOf)];
        break;
      case "checked":
        checks = new Map([...checks, ...event.checks]);
        break;
      case "unproved":
        unproved = [...unproved, event];
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
        break;
      default:
        break;
    }
    if (repaired && energises(event) && !row.mayEnergise) energisedEarly = true;
  }
  const safety = row.conclude();
  return {
    proved,
    ...(safety === undefined ? {} : { safety }),
    putBack: putBackOf(worked, events),
    checks,
    unproved,
    ...(left === undefined ? {} : { left }),
    notices,
    energisedEarly,
  };
}

function energises(event: JobEvent): boolean {
  return (
    event.kind === "energised" ||
    event.kind === "heated" ||
    event.kind === "loaded" ||
    (event.kind === "measured" && event.set.state.kind === "live")
  );
}

type ProofEvent = JobEvent & { readonly kind: "counted" | "operated" | "loaded" | "heated" };

function provedBy(
  event: ProofEvent,
  saying: (name: string) => string,
  idOf: (name: string) => string,
): Proved & { readonly on: string } {
  switch (event.kind) {
    case "counted": {
      const { good, of, from = "", to = "" } = event;
      return { kind: "operated", on: from, says: `${from} to ${to}`, good, of, proof: proveByOperations(good, of) };
    }
    case "operated": {
      const { good, of, minutesEach } = event;
      const more = minutesEach === undefined ? {} : { minutesEach };
      return {
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
      return { kind: "loaded", on: idOf(event.on), says: saying(event.on), by: event.by, contact };
    }
    case "heated":
      return { kind: "heated", on: "", says: "heat-up", heat: event.heat, proof: proveByHeatUp(event.heat) };
  }
}

function sayingOf({ case: { candidates } }: WorkedJob, id: string): string {
  const things = candidates.flatMap(({ machine }) => [...machine.parts, ...machine.assemblies, ...machine.causes]);
  return things.find((one) => one.id === id)?.says ?? id;
}

/** One row of safety tests, in the order in which they were noted. */
class SafetyRow {
  setting: SafetySetting | undefined;
  readonly #meters: ReadonlyMap<string, Meter>;
  #taken = new Map<SafetyTest, TestTaken>();

  constructor(meters: ReadonlyMap<string, Meter>) {
    this.#meters = meters;
  }

  beginAnew(): void {
    this.#taken = new Map();
  }

  take(test: ClosingEvent & { kind: "tested" }): void {
    if (test.test === "look") this.beginAnew();
    const { instrument, calibrated } = this.setting ?? {};
    this.#taken.set(test.test, {
      ...(instrument === undefined ? {} : { instrument }),
      ...(calibrated === undefined ? {} : { calibrated }),
      ...test,
    });
  }

  /** Look, earth (where there is one) and insulation have been taken, or could not be. */
  get mayEnergise(): boolean {
    const asked: readonly SafetyTest[] =
      this.setting?.protection === "I" ? ["look", "earth", "insulation"] : ["look", "insulation"];
    return asked.every((test) => this.#taken.has(test));
  }

  conclude(): SafetyTaken | undefined {
    const { setting } = this;
    if (setting === undefined) return undefined;
    const readings: Partial<Record<MeteredTest, SafetyReading>> = {};
    const cannot: MeteredTest[] = [];
    const found: Partial<Record<"look" | "function", "pass" | "fail">> = {};
    for (const { test, result, meter } of this.#taken.values()) {
      if (test === "look" || test === "function") {
        if (result.is === "found") found[test] = result.found;
      } else if (result.is === "cannot") cannot.push(test);
      else if (result.is === "shown") readings[test] = this.#reading(test, result, meter);
    }
    return { setting, findings: { ...found, readings, cannot }, taken: this.#taken };
  }

  #reading(
    test: MeteredTest,
    { amount, isAbove }: TestTaken["result"] & { is: "shown" },
    named: string | undefined,
  ): SafetyReading {
    if (isAbove) return { above: amount.nominal };
    const meter = named === undefined ? undefined : this.#meters.get(named);
    const byMeter =
      meter === undefined || amount.spread !== "exact"
        ? undefined
        : readingEstimate(meter, QUANTITY[test], amount.nominal);
    return { value: byMeter ?? asEstimate(test, amount) };
  }
}

function asEstimate(name: string, rated: Rated): Estimate {
  return estimate(rated.nominal, { [name]: standardUncertainty(rated) });
}
