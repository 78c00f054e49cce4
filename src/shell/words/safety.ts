import { formatAmount, type UnitCode, uncertainty } from "../../core/quantity/index.ts";
import {
  type PlugDischarge,
  type ProtectionClass,
  type SafetyLine,
  type SafetyRules,
  type SafetyTest,
  type SafetyVerdict,
  unitOfTest,
} from "../../core/safety/index.ts";
import { SAFETY_STEPS } from "./safety-steps.ts";
import { width, wrap } from "./wrap.ts";

/** With what it was measured, as the person gave it. */
export interface SafetyRecord {
  readonly protection: ProtectionClass;
  readonly hasSurgeSuppressors: boolean;
  readonly plug?: PlugDischarge;
  readonly instrument?: string;
  readonly calibrated?: string;
}

export const TEST_NAMES: Readonly<Record<SafetyTest, string>> = {
  look: "look",
  earth: "earth conductor",
  insulation: "insulation",
  "protective current": "protective conductor current",
  "touch current": "touch current",
  function: "function",
};

/** The record of the safety tests: whose rules, each test with limit and verdict, and what comes next. */
export function safetyInWords(rules: SafetyRules, verdict: SafetyVerdict, record: SafetyRecord): string[] {
  const { usual, surge } = rules.testVolts;
  const says = {
    pass: "Passed: safe to plug in, as far as these tests go.",
    fail: "Failed. Stop here: not to be plugged in. Put it right, then begin again with the look.",
    "not finished": "Not finished: not yet safe to plug in.",
  }[verdict.says];
  return [
    ...paragraph(
      "Local rules and licensed practice come first. Only a competent person tests, and only that person says that it is safe.",
    ),
    ...paragraph(`Rules: ${rules.says} (${rules.edition}). Class ${record.protection}.`),
    ...(rules.status === "read"
      ? []
      : paragraph(
          `The text of its clauses was not read: its limits are ${rules.status}. Hold them against your own copy.`,
        )),
    ...paragraph(
      record.hasSurgeSuppressors
        ? `Insulation with ${surge} V: it has surge suppressors.`
        : `Insulation with ${usual} V; ${surge} V where surge suppressors are built in.`,
    ),
    ...paragraph(
      record.instrument === undefined || record.calibrated === undefined
        ? "Instrument or its calibration date not given: no record without them."
        : `Measured with ${record.instrument}, calibrated ${record.calibrated}.`,
    ),
    "",
    ...verdict.lines.flatMap(lineInWords),
    ...(record.plug === undefined ? [] : plugInWords(record.plug)),
    "",
    says,
    ...verdict.lines.filter(({ says }) => says === "fail").flatMap(({ test }) => paragraph(SAFETY_STEPS[test].failed)),
    ...(verdict.next === undefined ? [] : paragraph(nextInWords(verdict.next))),
  ];
}

function nextInWords(test: SafetyTest): string {
  const { care, does } = SAFETY_STEPS[test];
  return `Next, ${TEST_NAMES[test]}: ${care} ${does}`;
}

function lineInWords(line: SafetyLine): string[] {
  const first = `${TEST_NAMES[line.test]}: ${line.why === "after a failure" ? "does not count" : line.says}`;
  if (line.test === "look" || line.test === "function") {
    const why =
      line.says === "not measured"
        ? line.why === undefined
          ? "not done"
          : "does not count, a test before it failed"
        : line.says;
    return [`${TEST_NAMES[line.test]}: ${why}`];
  }
  const unit = unitOfTest(line.test);
  const { reading, limit, row, why, instead } = line;
  const bound = line.test === "insulation" ? "at least" : "at most";
  const pieces = [
    reading === undefined ? "" : `measured ${measured(reading, unit)}`,
    limit === undefined
      ? ""
      : `limit ${bound} ${formatAmount(limit, unit)}${row?.clause === undefined ? "" : ` (${row.clause})`}`,
    row?.source.startsWith("M") === true ? "limit from memory" : "",
    line.cord?.source.startsWith("M") === true ? "the cord's ohms in it from memory" : "",
    line.says === "too close to say" && line.probability !== undefined
      ? `within the limit about ${Math.round(line.probability * 100)} times in 100`
      : "",
    why === "after a failure" ? "a test before it failed: take it again when that is put right" : "",
    why === "no limit for this cord"
      ? "the limit needs the cord's length and a section known here (--cord, --section)"
      : "",
    why === "no spread given" ? "without its ± it never passes: give what the instrument's handbook says" : "",
    why === "cannot be made"
      ? instead === undefined
        ? "cannot be made, and nothing stands in for it"
        : `cannot be made; ${TEST_NAMES[instead]} stands in for it`
      : "",
  ].filter((piece) => piece !== "");
  const note = row?.note === undefined ? [] : wrap(row.note, width, "  ");
  return [...wrap([first, ...pieces].join(" · "), width, "", "  "), ...note];
}

function measured(reading: NonNullable<SafetyLine["reading"]>, unit: UnitCode): string {
  if ("above" in reading) return `above ${formatAmount(reading.above, unit)}`;
  const reach = 2 * uncertainty(reading.value);
  const value = formatAmount(reading.value.value, unit);
  return reach === 0 ? `${value} (no ± given)` : `${value} ±${formatAmount(reach, unit, 2)}`;
}

function paragraph(text: string): string[] {
  return wrap(text, width);
}

function plugInWords({ volts, isWithin }: PlugDischarge): string[] {
  const left = `plug pins one second after pulling: ${formatAmount(volts, "V", 2)} at 230 V mains, worked out, not measured`;
  const says = isWithin
    ? "within the rule (34 V, asked above 0.1 µF)"
    : "above 34 V: do not touch the pins, look at the bleed";
  return wrap(`${left} · ${says} (IEC 60335-1, 22.5, second-hand)`, width, "", "  ");
}
