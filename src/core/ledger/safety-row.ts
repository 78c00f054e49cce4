import { type Meter, type Quantity, readingEstimate } from "../meter/index.ts";
import { estimate, standardUncertainty } from "../quantity/index.ts";
import {
  judgeSafety,
  type MeteredTest,
  type SafetyFindings,
  type SafetyLine,
  type SafetyReading,
  type SafetyRules,
  type SafetyTest,
} from "../safety/index.ts";
import type { SafetySetting, TestTaken } from "./closing-event.ts";
import type { JobEvent } from "./job.ts";

/** The safety tests as they stand: everything since the last look, or since the machine was last opened or mended. */
export interface SafetyTaken {
  readonly setting: SafetySetting;
  readonly findings: SafetyFindings;
  /** How each test was taken, and by which event. */
  readonly taken: ReadonlyMap<SafetyTest, TestTaken & { readonly event: string }>;
}

/** A rule set by its id; none where it is not known here. */
export type RulesOf = (id: string) => SafetyRules | undefined;

/** How a machine was energised after a repair that must not have been yet. */
export type Energised = "before the tests" | "after a failed test";

/** What each test reads. */
const QUANTITY: Readonly<Record<MeteredTest, Quantity>> = {
  earth: "ohms",
  insulation: "insulation ohms",
  "protective current": "leakage amps",
  "touch current": "leakage amps",
};

/** One row of safety tests, in the order in which they were noted. */
export class SafetyRow {
  setting: SafetySetting | undefined;
  readonly #meters: ReadonlyMap<string, Meter>;
  readonly #rulesOf: RulesOf;
  #taken = new Map<SafetyTest, TestTaken & { readonly event: string }>();

  constructor(meters: ReadonlyMap<string, Meter>, rulesOf: RulesOf) {
    this.#meters = meters;
    this.#rulesOf = rulesOf;
  }

  beginAnew(): void {
    this.#taken = new Map();
  }

  take(test: JobEvent & { kind: "tested" }): void {
    if (test.test === "look") this.beginAnew();
    const { instrument, calibrated } = this.setting ?? {};
    this.#taken.set(test.test, {
      ...(instrument === undefined ? {} : { instrument }),
      ...(calibrated === undefined ? {} : { calibrated }),
      ...test,
      event: test.id,
    });
  }

  /**
   * Why it must not be energised as it stands; nothing where look, earth (where there is one) and insulation passed, or
   * cannot be made. Where nobody knows the rules, a test that a meter judges counts once it is taken.
   */
  get forbids(): Energised | undefined {
    const asked: readonly SafetyTest[] =
      (this.setting?.protection ?? "I") === "I" ? ["look", "earth", "insulation"] : ["look", "insulation"];
    const rules = this.setting === undefined ? undefined : this.#rulesOf(this.setting.rules);
    const safety = this.conclude();
    if (rules === undefined || safety === undefined) {
      const look = this.#taken.get("look")?.result;
      if (look?.is === "found" && look.found === "fail") return "after a failed test";
      return asked.every((test) => this.#taken.has(test)) ? undefined : "before the tests";
    }
    const { lines } = judgeSafety(rules, safety.setting, safety.findings);
    // A machine that does not do what it should is still safe to be looked into.
    if (lines.some(({ test, says }) => says === "fail" && test !== "function")) return "after a failed test";
    const isThrough = ({ test, says, why }: SafetyLine): boolean =>
      !asked.includes(test) || says === "pass" || why === "cannot be made";
    return lines.every(isThrough) ? undefined : "before the tests";
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
    return { value: byMeter ?? estimate(amount.nominal, { [test]: standardUncertainty(amount) }) };
  }
}
