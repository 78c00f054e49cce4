import { describe, expect, test } from "vitest";
import { knownAnswers, withSlotNames } from "./known.ts";
import { readJob } from "./read-job.ts";

const SLOTS = new Map([
  [
    "stages",
    {
      ask: "How many thick wires go to the heater?",
      looks: new Map([
        ["one", "two wires"],
        ["two", "three wires"],
      ]),
    },
  ],
]);

function named(answers: string, events = "") {
  const read = readJob(
    `format: faultwright-job/1\njob: 1\nsheet: dryer\nmachine: {answers: {${answers}}}\nevents:\n${events}`,
  );
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return withSlotNames(read.value, SLOTS, "job.yaml");
}

describe("slots of a job", () => {
  test.each([
    ["stages: two"],
    ["stages: three wires"],
    ["How many thick wires go to the heater?: Three wires"],
    ["stag: tw"],
  ])("written as %s are stages: two", (written) => {
    const job = named(written);
    expect(job.ok && [...knownAnswers(job.value)]).toEqual([["stages", "two"]]);
  });

  test("are named in events too", () => {
    const job = named("", "  - answered: {stages: two wires}\n");
    expect(job.ok && [...knownAnswers(job.value)]).toEqual([["stages", "one"]]);
  });

  test("that are not known are refused with 2 lines: three stages are not three wires", () => {
    const job = named("stages: three", "  - answered: {doors: one}\n");
    expect(!job.ok && job.issues.map(({ line, code, hint }) => `${line} ${code} ${hint}`)).toEqual([
      "4 job.unknown-variant There are: one · two.",
      "6 job.unknown-slot There is: stages.",
    ]);
  });
});
