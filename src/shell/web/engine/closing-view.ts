import {
  CLOSE_OUT_CHECKS,
  type CloseOut,
  type CloseOutCheck,
  type Closing,
  closeOutOf,
  closingOf,
  type Energised,
  likeliest,
  type PutBackItem,
  type SafetySetting,
  type WorkedJob,
} from "../../../core/ledger/index.ts";
import { limitText, provedText, readingText } from "../../../core/paper/index.ts";
import { coursesFor, priceOf, type Shop } from "../../../core/remedy/index.ts";
import { METERED, type SafetyLine, type SafetyRules, type SafetyTest } from "../../../core/safety/index.ts";
import { capital } from "../../words/capital.ts";
import { missedInWords, reasonInWords } from "../../words/close-out.ts";
import { TEST_NAMES } from "../../words/safety.ts";
import { SAFETY_STEPS } from "../../words/safety-steps.ts";
import type { Facts } from "./facts.ts";

/** A rule set as it is chosen. `status`: how far its text was read. */
export interface RuleSetOffer {
  readonly id: string;
  readonly says: string;
  readonly country: string;
  readonly edition: string;
  readonly status: SafetyRules["status"];
  readonly testVolts: SafetyRules["testVolts"];
}

/** An instrument whose accuracy may stand in for a reading's own. */
export interface TesterOffer {
  readonly id: string;
  readonly says: string;
  readonly tests: readonly SafetyTest[];
}

/** One safety test as its card shows it. */
export interface TestCard {
  readonly test: SafetyTest;
  readonly name: string;
  readonly does: string;
  readonly care: string;
  /** What to do now that it failed. */
  readonly failed: string;
  readonly isLive: boolean;
  readonly says: SafetyLine["says"];
  readonly why?: SafetyLine["why"];
  /** "0.08 Ω ±0.02 Ω" */
  readonly measured?: string;
  readonly limit?: string;
  readonly clause?: string;
  /** What of the limit is from memory. */
  readonly fromMemory?: "limit" | "cord" | "both";
  readonly note?: string;
  /** Chance in a hundred that it is within the limit, where that is too close to say. */
  readonly inHundred?: number;
  /** Name of the test that stands in. */
  readonly instead?: string;
  readonly cannot?: string;
  /** The event that told it, by its place in the job file. */
  readonly event?: number;
}

/** The rooms of the way out, in which a reason against closing is put right. */
export type ClosingRoom = "tests" | "proof" | "gate" | "job";

/** Everything between the last repair and the door. */
export interface ClosingView {
  readonly energy: "plug out" | "live";
  readonly provedDead: boolean;
  readonly currency: string;
  /** By the sheet: to begin the setting with. */
  readonly protection: "I" | "II";
  readonly rules: readonly RuleSetOffer[];
  readonly testers: readonly TesterOffer[];
  readonly setting?: SafetySetting;
  /** Test volts for the insulation of this machine. */
  readonly insulationVolts?: number;
  readonly putBack: readonly (Omit<PutBackItem, "event"> & { readonly event?: number })[];
  readonly tests: readonly TestCard[];
  readonly verdict?: "pass" | "fail" | "not finished";
  readonly next?: SafetyTest;
  /** Look, earth and insulation passed, or could not be made. */
  readonly mayEnergise: boolean;
  /** A safety test failed: it stays unplugged. */
  readonly hasFailed: boolean;
  readonly energisedEarly?: Energised;
  readonly owesNewTests: boolean;
  readonly isUntouched: boolean;
  readonly coverage?: { readonly reached: readonly string[]; readonly missed: readonly string[] };
  readonly checks: readonly { readonly check: CloseOutCheck; readonly holds?: boolean }[];
  readonly unanswered: CloseOut["unanswered"];
  readonly gate: {
    readonly isOpen: boolean;
    readonly reasons: readonly { readonly says: string; readonly room: ClosingRoom }[];
  };
  readonly repair?: { readonly on: string; readonly says: string };
  readonly proved: readonly {
    readonly event: number;
    readonly kind: Closing["proved"][number]["kind"];
    readonly says: string;
  }[];
  readonly unproved: readonly (Closing["unproved"][number] & { readonly place: number })[];
  readonly parts: readonly PartOffer[];
  /** Minutes that one operation takes, as the shop reckons. */
  readonly operationMinutes: number;
  readonly perHour: number;
  /** What coming again costs. */
  readonly secondVisit: number;
  readonly notices: Closing["notices"];
}

/** A part that may be operated or loaded; what it would cost to change it. */
export interface PartOffer {
  readonly id: string;
  readonly says: string;
  readonly change?: { readonly minutes: number; readonly price: number };
}

/** How a job stands between repair and door. */
export function closingView(worked: WorkedJob, facts: Facts): ClosingView {
  const closing = closingOf(worked, facts.rulesOf);
  const rules = closing.safety === undefined ? undefined : facts.rulesOf(closing.safety.setting.rules);
  const out = closeOutOf(worked, closing, rules);
  const machine = likeliest(worked);
  const setting = closing.safety?.setting;
  const { work } = worked.state;
  const { verdict, coverage } = out;
  const last = worked.state.repairs.at(-1);
  return {
    energy: work.energy,
    provedDead: work.provedDead,
    currency: worked.shop.currency,
    protection: machine.supply.class,
    rules: facts.ruleSets().map(offerOf),
    testers: testersOf(facts),
    ...(setting === undefined ? {} : { setting }),
    ...(setting === undefined || rules === undefined
      ? {}
      : { insulationVolts: setting.hasSurgeSuppressors ? rules.testVolts.surge : rules.testVolts.usual }),
    putBack: closing.putBack.map(({ event, ...item }) => ({
      ...item,
      ...(event === undefined ? {} : { event: placeOf(event) }),
    })),
    tests: (verdict?.lines ?? []).map((line) => cardOf(line, closing)),
    ...(verdict === undefined ? {} : { verdict: verdict.says }),
    ...(verdict?.next === undefined ? {} : { next: verdict.next }),
    mayEnergise: closing.mayEnergise,
    hasFailed: closing.hasFailed,
    ...(closing.energisedEarly === undefined ? {} : { energisedEarly: closing.energisedEarly }),
    owesNewTests: closing.owesNewTests,
    isUntouched: closing.isUntouched,
    ...(coverage === undefined
      ? {}
      : { coverage: { reached: coverage.reached, missed: coverage.missed.map(missedInWords) } }),
    checks: checksOf(closing),
    unanswered: out.unanswered,
    gate: {
      isOpen: out.gate.isOpen,
      reasons: out.gate.reasons.map((reason) => ({ says: capital(reasonInWords(reason)), room: ROOMS[reason.is] })),
    },
    ...(last === undefined ? {} : { repair: { on: last.on, says: `${sayingIn(worked, last.on)}: ${last.remedy}` } }),
    proved: closing.proved.map((one) => ({ event: placeOf(one.event), kind: one.kind, says: provedText(one) })),
    unproved: closing.unproved.map((one) => ({ ...one, place: placeOf(one.event) })),
    parts: partsOf(worked),
    operationMinutes: worked.shop.minutes.operation,
    perHour: worked.shop.perHour,
    secondVisit: worked.shop.secondVisit,
    notices: closing.notices,
  };
}

/** Whose rules there are, and which instruments: for the settings. */
export function safetyOffers(facts: Facts): {
  readonly rules: readonly RuleSetOffer[];
  readonly testers: readonly TesterOffer[];
} {
  return { rules: facts.ruleSets().map(offerOf), testers: testersOf(facts) };
}

function offerOf({ id, says, country, edition, status, testVolts }: SafetyRules): RuleSetOffer {
  return { id, says, country, edition, status, testVolts };
}

/** Of which quantity each metered test is. */
const QUANTITY = {
  earth: "ohms",
  insulation: "insulation ohms",
  "protective current": "leakage amps",
  "touch current": "leakage amps",
} as const;

function testersOf({ meters }: Facts): readonly TesterOffer[] {
  return [...meters.values()].flatMap(({ id, says, ranges }) => {
    const tests = METERED.filter((test) => ranges.some(({ quantity }) => quantity === QUANTITY[test]));
    return tests.length === 0 ? [] : [{ id, says, tests }];
  });
}

function cardOf(line: SafetyLine, { safety }: Closing): TestCard {
  const { test, says, why, row, cord, probability, instead, limit, reading } = line;
  const taken = safety?.taken.get(test);
  const cannot = taken?.result.is === "cannot" ? taken.result.why : undefined;
  return {
    test,
    name: TEST_NAMES[test],
    ...SAFETY_STEPS[test],
    isLive: test === "protective current" || test === "touch current" || test === "function",
    says,
    ...(why === undefined ? {} : { why }),
    ...(reading === undefined ? {} : { measured: readingText(line) }),
    ...(limit === undefined ? {} : { limit: limitText(line) }),
    ...(row?.clause === undefined ? {} : { clause: row.clause }),
    ...memoryOf(row?.source.startsWith("M") === true, cord?.source.startsWith("M") === true),
    ...(row?.note === undefined ? {} : { note: row.note }),
    ...(says !== "too close to say" || probability === undefined ? {} : { inHundred: Math.round(probability * 100) }),
    ...(instead === undefined ? {} : { instead: TEST_NAMES[instead] }),
    ...(cannot === undefined ? {} : { cannot }),
    ...(taken === undefined ? {} : { event: placeOf(taken.event) }),
  };
}

function memoryOf(limit: boolean, cord: boolean): Pick<TestCard, "fromMemory"> {
  if (!limit && !cord) return {};
  return { fromMemory: limit && cord ? "both" : limit ? "limit" : "cord" };
}

function checksOf({ checks, safety }: Closing): ClosingView["checks"] {
  const isClassOne = (safety?.setting.protection ?? "I") === "I";
  return CLOSE_OUT_CHECKS.filter((check) => check !== "earth re-made" || isClassOne).map((check) => {
    const holds = checks.get(check);
    return { check, ...(holds === undefined ? {} : { holds }) };
  });
}

const ROOMS: Readonly<Record<CloseOut["gate"]["reasons"][number]["is"], ClosingRoom>> = {
  "check failed": "gate",
  "not checked": "gate",
  "why did it open": "gate",
  "not put back": "tests",
  disproved: "proof",
  "not seen right": "job",
  "nothing mended": "job",
  "energised early": "tests",
  "tests not begun": "tests",
  "test failed": "tests",
  "tests not finished": "tests",
};

/** Parts and assemblies of any machine this may be, named once. */
function partsOf({ case: { candidates }, shop }: WorkedJob): readonly PartOffer[] {
  const offers = new Map<string, PartOffer>();
  for (const { machine, modes } of candidates) {
    for (const { id, says, joint } of machine.parts) {
      if (joint !== undefined || offers.has(id)) continue;
      const courses = modes
        .filter((mode) => machine.parts[mode.part]?.id === id)
        .flatMap((mode) => coursesFor(machine, mode, shop));
      const change = cheapestChange(courses, shop);
      offers.set(id, { id, says, ...(change === undefined ? {} : { change }) });
    }
  }
  return [...offers.values()];
}

/** A new part in place of doubt: the cheapest course that fits one. */
function cheapestChange(courses: readonly ReturnType<typeof coursesFor>[number][], shop: Shop): PartOffer["change"] {
  const changes = courses
    .filter(({ price }) => price > 0)
    .map(({ minutes, price }) => ({ minutes, price: priceOf(minutes, shop) + price }))
    .sort((a, b) => a.price - b.price);
  return changes[0];
}

function sayingIn({ case: { candidates } }: WorkedJob, id: string): string {
  const things = candidates.flatMap(({ machine }) => [...machine.parts, ...machine.assemblies, ...machine.causes]);
  return things.find((one) => one.id === id)?.says ?? id;
}

/** Events of a job file are `e1`, `e2` ... */
function placeOf(event: string): number {
  return Number(event.replace(/^e/, ""));
}
