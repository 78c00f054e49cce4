import { conformity } from "../meter/index.ts";
import { type Estimate, uncertainty } from "../quantity/index.ts";
import { limitFor, rowsFor } from "./limit.ts";
import {
  type Conductor,
  METERED,
  type MeteredTest,
  SAFETY_TESTS,
  type SafetyRow,
  type SafetyRules,
  type SafetyTest,
  type Tested,
} from "./rules.ts";

/** What a meter showed: a value with its spread, or that the value lies above the top of its range. */
export type SafetyReading = { readonly value: Estimate } | { readonly above: number };

/** All that was found; what is left out was not done. */
export interface SafetyFindings {
  readonly look?: "pass" | "fail";
  readonly function?: "pass" | "fail";
  readonly readings: Readonly<Partial<Record<MeteredTest, SafetyReading>>>;
  /** Tests that cannot be made on this machine. */
  readonly cannot: readonly MeteredTest[];
}

export interface SafetyLine {
  readonly test: SafetyTest;
  readonly says: "pass" | "fail" | "too close to say" | "not measured";
  readonly reading?: SafetyReading;
  readonly limit?: number;
  readonly row?: SafetyRow;
  /** The cord's conductor, where its ohms are in the limit. */
  readonly cord?: Conductor;
  /** Chance that the true value is within the limit. */
  readonly probability?: number;
  /** "after a failure": it was taken, and does not count. */
  readonly why?: "after a failure" | "no limit for this cord" | "cannot be made" | "no spread given";
  /** The test that stands in for one that cannot be made. */
  readonly instead?: MeteredTest;
}

export interface SafetyVerdict {
  readonly says: "pass" | "fail" | "not finished";
  readonly lines: readonly SafetyLine[];
  /** The next thing to do; none after a failure, or when all is done. */
  readonly next?: SafetyTest;
}

/**
 * Judges the tests in their order. A failed one ends the row: what was taken after it does not count. All must pass, save
 * one that cannot be made and whose stand-in passed. A reading that carries no uncertainty never passes.
 *
 * @source JCGM 106:2012, 7.2 to 7.4 (95 % sure, or it is too close to say); limits and order: the rule set
 */
export function judgeSafety(rules: SafetyRules, tested: Tested, findings: SafetyFindings): SafetyVerdict {
  const lines: SafetyLine[] = [];
  for (const test of SAFETY_TESTS) {
    const metered = METERED.find((one) => one === test);
    const stopped = lines.some(({ says }) => says === "fail");
    if (test === "look" || test === "function") {
      const says = findings[test] ?? "not measured";
      lines.push(
        stopped && says !== "not measured" ? { test, says: "not measured", why: "after a failure" } : { test, says },
      );
    } else if (metered !== undefined && rowsFor(rules, metered, tested).length > 0) {
      lines.push(judgeReading(rules, tested, metered, findings, stopped));
    }
  }
  if (lines.some(({ says }) => says === "fail")) return { says: "fail", lines };
  const open = lines.find((line) => line.says !== "pass" && !isStoodInFor(line, lines));
  return open === undefined ? { says: "pass", lines } : { says: "not finished", lines, next: nextFor(open, lines) };
}

function judgeReading(
  rules: SafetyRules,
  tested: Tested,
  test: MeteredTest,
  { readings, cannot }: SafetyFindings,
  stopped: boolean,
): SafetyLine {
  const found = limitFor(rules, test, tested);
  const about = found === undefined ? { test } : { test, ...found };
  const reading = readings[test];
  if (reading === undefined) {
    if (!cannot.includes(test)) return { ...about, says: "not measured" };
    const instead = rowsFor(rules, test, tested)[0]?.instead;
    return { ...about, says: "not measured", why: "cannot be made", ...(instead === undefined ? {} : { instead }) };
  }
  if (stopped) return { ...about, reading, says: "not measured", why: "after a failure" };
  if (found === undefined) return { ...about, reading, says: "too close to say", why: "no limit for this cord" };
  const { limit } = found;
  const isFloor = test === "insulation";
  if ("above" in reading) {
    if (reading.above < limit) return { ...about, reading, says: "too close to say" };
    return { ...about, reading, says: isFloor ? "pass" : "fail" };
  }
  const limits = isFloor ? { lo: limit, hi: Number.POSITIVE_INFINITY } : { lo: Number.NEGATIVE_INFINITY, hi: limit };
  const { says, probability } = conformity(reading.value, limits);
  // A value without its ± may lie on either side of the limit: it can fail, and never passes.
  if (says === "good" && uncertainty(reading.value) === 0)
    return { ...about, reading, says: "too close to say", why: "no spread given" };
  return { ...about, reading, probability, says: says === "good" ? "pass" : says === "bad" ? "fail" : says };
}

/** A test that cannot be made waits for the one that stands in for it. */
function nextFor({ test, instead }: SafetyLine, lines: readonly SafetyLine[]): SafetyTest {
  const waits = lines.find((line) => line.test === instead && line.says === "not measured" && line.why === undefined);
  return waits?.test ?? test;
}

function isStoodInFor(line: SafetyLine, lines: readonly SafetyLine[]): boolean {
  return line.instead !== undefined && lines.some(({ test, says }) => test === line.instead && says === "pass");
}
