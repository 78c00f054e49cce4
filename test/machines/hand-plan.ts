import type { Meter } from "../../src/core/meter/index.ts";
import { ARRIVAL, nextSteps, type Plan, type WorkState } from "../../src/core/plan/index.ts";
import type { Shop } from "../../src/core/remedy/index.ts";
import type { Machine, SignRule, Step } from "../../src/core/sheet/index.ts";
import { HAND_SHOP, type HandPart, type HandTable, handCase } from "./hand-case.ts";

/** No instruments: readings fall back on eye, hand and watch. */
export const METERS: ReadonlyMap<string, Meter> = new Map();

/** A sign that is there exactly when one of these parts is at fault. */
export const yes =
  (hit: readonly string[]): HandTable =>
  (faulty) =>
    faulty.some((id) => hit.includes(id)) ? [1, 0] : [0, 1];

/** A yes-or-no sign of the step "run", told, heard and seen alike. */
export function signRule(id: string, more: Partial<SignRule> = {}): SignRule {
  const odds = { hit: 0.9, falseAlarm: 0.1 };
  return {
    id,
    ask: `${id}?`,
    answers: ["yes", "no"],
    rule: { kind: "test", test: { all: [] } },
    told: odds,
    heard: odds,
    seen: odds,
    in: "run",
    ...more,
  };
}

/** A step in which the first output is driven. */
export const runStep: Step = { id: "run", drives: [{ output: 0 }], entersIf: [], needs: [], timeOuts: [] };

export type Odds = readonly (readonly [readonly string[], number])[];
export type Tables = Parameters<typeof handCase>[3];

/** The plan for a hand-made case, from arrival and the hand-made shop unless told otherwise. */
export function plan(
  machine: Machine,
  parts: readonly HandPart[],
  odds: Odds,
  tables: Tables,
  more: {
    state?: Partial<WorkState>;
    shop?: Partial<Shop>;
    authority?: number;
    telephone?: boolean;
    refineWork?: number;
  } = {},
): Plan {
  const { case: the, belief } = handCase(machine, parts, odds, tables);
  return nextSteps(
    the,
    belief,
    { ...ARRIVAL, ...more.state },
    { ...HAND_SHOP, ...more.shop },
    {
      meters: METERS,
      ...(more.authority === undefined ? {} : { authority: more.authority }),
      ...(more.refineWork === undefined ? {} : { refineWork: more.refineWork }),
      ...(more.telephone === true ? { where: "telephone" as const } : {}),
    },
  );
}

export const ids = (made: Plan): string[] => made.steps.map((step) => step.id);
