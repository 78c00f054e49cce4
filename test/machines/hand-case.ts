import type { Mode } from "../../src/core/fault/index.ts";
import type { RemedyRule } from "../../src/core/part/index.ts";
import type { Shop } from "../../src/core/remedy/index.ts";
import type { Access, Cause, Machine, Plug, Point } from "../../src/core/sheet/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import type { Belief, Case, Hypothesis, OutcomeTable } from "../../src/core/suspect/index.ts";
import { MachineBuilder } from "./build.ts";

/** A part for planning tests: one way to fail ("bad"), one remedy ("new"). */
export interface HandPart {
  readonly id: string;
  readonly access?: string;
  /** Share of the price of a new machine, minutes, chance of cure and of return. */
  readonly part?: number;
  readonly minutes?: number;
  readonly cured?: number;
  readonly back?: number;
  readonly victim?: boolean;
  readonly looks?: string;
  readonly leaks?: boolean;
  readonly of?: string;
  /** Nodes of its two pins. */
  readonly between?: readonly [number, number];
}

const exactly = (nominal: number) => ({ nominal, lo: nominal, hi: nominal, spread: "exact" as const });

function remedyOf(part: HandPart): RemedyRule {
  return {
    name: "new",
    cures: ["all"],
    assembly: false,
    minutes: exactly(part.minutes ?? 10),
    partShare: exactly(part.part ?? 0),
    cured: part.cured ?? 1,
    back: part.back ?? 0,
    steps: [],
  };
}

export function accessGroup(id: string, minutes: number, more: Partial<Access> = {}): Access {
  return {
    id,
    says: `the ${id} cover`,
    openMinutes: minutes / 2,
    closeMinutes: minutes / 2,
    position: "stands",
    needs: [],
    mayRun: "with the cover on only",
    tools: [],
    putsBack: [],
    cautions: [],
    ...more,
  };
}

/** A machine that is nothing but parts, covers and points: the circuit is in the test's tables. */
export function handMachine(parts: readonly HandPart[], more: Partial<Machine> = {}): Machine {
  const builder = new MachineBuilder();
  for (const part of parts) {
    builder.part(part.id, {
      modes: [{ name: "bad", share: 100, does: [], nowAndThen: 0, victim: part.victim ?? false }],
    });
  }
  const built = builder.build();
  return {
    ...built,
    parts: built.parts.map((made, n) => {
      const part = parts[n] as HandPart;
      const instance = { ...made.instance, remedies: [remedyOf(part)] };
      return {
        ...made,
        instance,
        ...(part.between === undefined
          ? {}
          : {
              pins: new Map([
                ["a", part.between[0]],
                ["b", part.between[1]],
              ]),
            }),
        ...(part.access === undefined ? {} : { access: part.access }),
        ...(part.of === undefined ? {} : { of: part.of }),
      };
    }),
    ...more,
  };
}

export function handPoint(id: string, node: number, live: Point["live"] = "never", access?: string): Point {
  return { id, node, says: id, live, ...(access === undefined ? {} : { access }) };
}

export function handPlug(id: string, points: readonly number[], access?: string): Plug {
  return {
    id,
    of: id,
    ways: points.length,
    pinOneSays: "left",
    elements: [],
    pins: points.map((point, n) => ({ pin: String(n + 1), point })),
    ...(access === undefined ? {} : { access }),
  };
}

export function handCause(id: string, look?: Cause["look"]): Cause {
  return {
    id,
    says: id,
    group: "mechanical",
    share: 5,
    sets: [],
    measures: [],
    remedies: [remedyOf({ id, minutes: 10 })],
    ...(look === undefined ? {} : { look }),
  };
}

/** The mode "bad" of a part, or of a cause. */
export function handMode(machine: Machine, id: string, parts: readonly HandPart[]): Mode {
  const part = machine.parts.findIndex((one) => one.id === id);
  const cause = part < 0 ? machine.causes.findIndex((one) => one.id === id) : -1;
  const hand = parts.find((one) => one.id === id);
  return {
    id: cause >= 0 ? id : `${id}/bad`,
    part,
    cause,
    parts: part < 0 ? [] : [part],
    says: `${id} bad`,
    partSays: id,
    share: 1,
    severities: [{ weight: 1, effects: hand?.leaks === true ? [{ does: "leak", element: 0, ohms: 1e4 }] : [] }],
    nowAndThen: 0,
    victim: hand?.victim ?? false,
    ...(hand?.looks === undefined ? {} : { looks: hand.looks, seen: { hit: 0.95, falseAlarm: 0.02 } }),
  };
}

/** Chance of each outcome under a hypothesis (by the ids of its parts). */
export type HandTable = (faulty: readonly string[]) => readonly number[];

export interface HandCase {
  readonly case: Case;
  readonly belief: Belief;
}

/** A case whose every likelihood is written in the test: `tables` by the key of the observation (see `keyOf`). */
export function handCase(
  machine: Machine,
  parts: readonly HandPart[],
  odds: readonly (readonly [readonly string[], number])[],
  tables: Readonly<Record<string, { readonly outcomes: readonly string[]; readonly chance: HandTable }>>,
): HandCase {
  const whole = odds.reduce((sum, [, p]) => sum + p, 0);
  const hypotheses: Hypothesis[] = odds.map(([faulty, p]) => ({
    id: faulty.join("+") || "?",
    kind: faulty.length === 0 ? "not on this sheet" : faulty.length === 1 ? "single" : "linked pair",
    candidate: 0,
    modes: faulty.map((id) => handMode(machine, id, parts)),
    severities: faulty.map(() => 0),
    failsOn: 1,
    logPrior: Math.log(p / whole),
  }));
  const the: Case = {
    candidates: [{ machine, weight: 1, modes: [] }],
    hypotheses,
    logLikelihood: () => {
      throw new Error("not asked in planning");
    },
    prediction: () => undefined,
    outcomes: (observation, live) => {
      const indices = live?.hypotheses ?? Int32Array.from(hypotheses.keys());
      const table = tables[keyOf(observation)];
      return outcomeTable(
        observation,
        table,
        Array.from(indices, (h) => odds[h]?.[0] ?? []),
      );
    },
    update: () => belief,
  };
  const belief: Belief = {
    logPosterior: Float64Array.from(hypotheses, (hypothesis) => hypothesis.logPrior),
    modes: [],
    parts: [],
    nothingWrong: 0,
    notOnThisSheet: 0,
    severalFaults: 0,
    logEvidence: 0,
  };
  return { case: the, belief };
}

function outcomeTable(
  observation: Observation,
  table: { readonly outcomes: readonly string[]; readonly chance: HandTable } | undefined,
  faulty: readonly (readonly string[])[],
): OutcomeTable {
  const outcomes = table?.outcomes ?? ["whatever"];
  const rows = faulty.map((ids) => table?.chance(ids) ?? [1]);
  return {
    outcomes: outcomes.map((says) => ({ id: says, says, observation })),
    chance: outcomes.map((_, o) => Float64Array.from(rows, (row) => row[o] ?? 0)),
  };
}

/** `told:heat`, `look:belt`, `slot:stages`, a probe's id, `count probe`. */
export function keyOf(observation: Observation): string {
  switch (observation.kind) {
    case "sign":
      return `${observation.witness}:${observation.sign}`;
    case "look":
      return `look:${observation.at}`;
    case "answer":
      return `slot:${observation.slot}`;
    case "reading":
      return observation.probe.id;
    case "count":
      return `count ${observation.probe.id}`;
  }
}

/** An invented shop: 60 an hour, so that a minute costs one. */
export const HAND_SHOP: Shop = {
  id: "hand",
  says: "a shop for tests",
  currency: "EUR",
  perHour: 60,
  callOut: 40,
  secondVisit: 30,
  comeback: 100,
  wrongPart: 0,
  newMachine: 600,
  serviceYears: 12,
  liveMargin: 10,
  handheld: false,
  timeStopMinutes: 45,
  van: new Set(),
  bag: [],
  minutes: {
    ask: 0.5,
    look: 1,
    reading: 0.5,
    pullConnector: 0.5,
    freePart: 1,
    proveDead: 1.5,
    energise: 1,
    runStep: 2,
    clip: 3,
    changeInstrument: 0.5,
    changePosition: 2,
    verify: 6,
    check: 5,
    operation: 0.3,
    wrapUp: 10,
  },
};
