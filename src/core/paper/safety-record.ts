import { dayText } from "../day/index.ts";
import { CLOSE_OUT_CHECKS, type Energised } from "../ledger/index.ts";
import type { Missed, WayToReach } from "../safety/index.ts";
import type { Block, Paper } from "./paper.ts";
import { capital, machineFacts, type PaperFacts, paperToCustomer } from "./paper-facts.ts";
import { limitText, lineSays, readingText, rulesNote, TEST_SAYS } from "./test-words.ts";

/** The safety record: every test with what was measured, its limit and what that says; by whom, with what, by whose rules. */
export function safetyRecordOf(facts: PaperFacts): Paper {
  return paperToCustomer("safety", "Safety record", facts, [
    { is: "paragraph", text: inShort(facts), isStrong: true },
    machineFacts(facts),
    ...testBlocks(facts),
    ...checkBlocks(facts),
    ...coverageBlocks(facts),
    { is: "signatures", lines: ["Tested by, date"] },
  ]);
}

function inShort({ out, closing }: PaperFacts): string {
  switch (out.verdict?.says) {
    case "pass":
      return out.gate.reasons.some(({ is }) => is === "check failed")
        ? "The tests passed, and something else is not as it must be: see below. It must stay unplugged."
        : "This machine passed its safety tests. As far as these tests go it is safe to plug in.";
    case "fail":
      return "This machine failed a safety test. It must not be plugged in.";
    case "not finished":
      return "The safety tests are not finished. This machine must not be plugged in yet.";
    case undefined:
      return closing.safety === undefined
        ? "No safety tests were made."
        : "The safety tests could not be judged: their rules are not known here.";
  }
}

function testBlocks({ closing: { safety }, out: { verdict }, rules, worked }: PaperFacts): Block[] {
  if (safety === undefined || verdict === undefined || rules === undefined) return [];
  const { setting, taken } = safety;
  const cords = [
    ...(setting.cordMetres === undefined ? [] : [`${setting.cordMetres} m`]),
    ...(setting.cordSection === undefined ? [] : [`${setting.cordSection} mm²`]),
  ];
  const volts = setting.hasSurgeSuppressors ? rules.testVolts.surge : rules.testVolts.usual;
  const instruments = new Set(
    [...taken.values()].flatMap(({ instrument, calibrated, result }) =>
      result.is !== "shown"
        ? []
        : [
            instrument === undefined
              ? "not noted"
              : `${instrument}, ${calibrated === undefined ? "date of calibration not noted" : `calibrated ${calibratedText(calibrated)}`}`,
          ],
    ),
  );
  const testers = new Set(
    worked.job.events.flatMap(({ kind, by }) => (kind === "tested" && by !== undefined ? [by] : [])),
  );
  const notes = verdict.lines.flatMap(({ row }) => row?.note ?? []);
  return [
    {
      is: "facts",
      rows: [
        ["Protection class", setting.protection],
        ...(cords.length === 0 ? [] : [["Cord", cords.join(", ")] as const]),
        ["Insulation tested with", `${volts} V DC`],
        ...(instruments.size === 0 ? [] : [["Measured with", [...instruments].join("; ")] as const]),
        ...(testers.size === 0 ? [] : [["Tested by", [...testers].join(", ")] as const]),
      ],
    },
    { is: "heading", text: "Tests, in the order in which they were made" },
    {
      is: "table",
      head: [
        { says: "Test" },
        { says: "Measured", isFigures: true },
        { says: "Limit", isFigures: true },
        { says: "Result" },
      ],
      rows: verdict.lines.map((line) => [
        TEST_SAYS[line.test],
        readingText(line),
        limitText(line),
        lineSays(line, verdict.says === "fail"),
      ]),
    },
    { is: "note", text: rulesNote(rules, verdict.lines) },
    {
      is: "note",
      text: "± holds the true value 19 times in 20. “Passed” is said only where that is at least 95 % sure; else “too close to say”.",
    },
    ...notes.map((text): Block => ({ is: "note", text: `${capital(text)}.` })),
  ];
}

function calibratedText(date: string): string {
  return /^\d{4}-\d{2}-\d{2}$/.test(date) ? dayText(date) : date;
}

function checkBlocks({ closing: { checks, putBack, safety, energisedEarly, owesNewTests } }: PaperFacts): Block[] {
  const asked = CLOSE_OUT_CHECKS.filter(
    (check) => check !== "earth re-made" || (safety?.setting.protection ?? "I") === "I",
  );
  const items = asked.map((check) => {
    const holds = checks.get(check);
    return `${CHECK_SAYS[check]}: ${holds === undefined ? "not looked at" : holds ? "yes" : "no"}`;
  });
  const owed = putBack.filter(({ isBack }) => !isBack).map(({ says }) => says);
  const back =
    putBack.length === 0
      ? "Nothing was opened"
      : owed.length === 0
        ? `All ${putBack.length} things that were opened or taken off are back in their place`
        : `Not back in its place: ${owed.join(", ")}`;
  return [
    { is: "heading", text: "Looked at by eye and hand" },
    {
      is: "list",
      items: [...items, back, ...(energisedEarly === undefined ? [] : [earlyText(energisedEarly, owesNewTests)])],
    },
  ];
}

/** It happened, and stays on the record whatever was tested after it. */
function earlyText(how: Energised, owesNewTests: boolean): string {
  const then = owesNewTests ? "it was not tested anew since" : "the tests above were begun anew after that";
  return how === "after a failed test"
    ? `It was plugged in although a safety test had failed; ${then}`
    : `It was plugged in after the repair before look, earth and insulation had passed; ${then}`;
}

const CHECK_SAYS: Readonly<Record<(typeof CLOSE_OUT_CHECKS)[number], string>> = {
  "protectors in place": "Every part that protects against fire and shock is in its place",
  "right rating and kind": "Each of them is of the right rating and kind",
  "nothing bridged": "Nothing is bridged",
  "earth re-made": "The earth wire is joined again wherever it was taken off",
};

/** Said whatever came of the tests: what they could not reach. */
function coverageBlocks({ out: { coverage }, closing: { safety } }: PaperFacts): Block[] {
  if (coverage === undefined || safety?.taken.get("insulation") === undefined) return [];
  if (coverage.missed.length === 0) return [];
  return [
    { is: "heading", text: "What the insulation test at the plug does not reach" },
    {
      is: "paragraph",
      text: "Some parts lie behind a switch or relay that is open while the plug is out. They were worked out from the machine's circuit; the current to earth, measured while it runs, covers them when they are switched on.",
    },
    { is: "list", items: coverage.missed.map(missedText) },
  ];
}

function missedText({ says, isPartly, by }: Missed): string {
  return `${capital(says)}: ${isPartly ? "partly" : "not"} reached. For the technician: ${by.map(wayText).join("; ")}.`;
}

function wayText(way: WayToReach): string {
  switch (way.is) {
    case "hands":
      return `the same test with ${way.hands.join(" and ")} held`;
    case "terminals":
      return `plug out, ${way.pulled === undefined ? "" : `connector ${way.pulled} pulled, `}${way.points.join(" and ")} against earth`;
    case "running":
      return "current to earth with it running";
  }
}
