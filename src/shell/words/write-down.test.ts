// What a step says to write down must be read as the very observation that the plan asked for.
import { expect, it } from "vitest";
import { branchJob, must, workedBranch } from "../../../test/machines/branch-job.ts";
import { foldJob, planOf, readJob } from "../../core/ledger/index.ts";
import type { Observation } from "../../core/sign/index.ts";
import { linesToWrite, lineToWrite } from "./write-down.ts";

/** What is asked, apart from what was found. */
function asked(observation: Observation): string {
  switch (observation.kind) {
    case "sign":
      return `${observation.witness} ${observation.sign}`;
    case "look":
      return `look ${observation.at}`;
    case "answer":
      return `slot ${observation.slot}`;
    case "count":
      return `count ${observation.probe.id}`;
    case "reading":
      return `${observation.probe.id} ${observation.meter.id}`;
  }
}

/** The line with an answer in the place of each question mark. */
function answered(observation: Observation, line: string): string {
  switch (observation.kind) {
    case "sign":
      return line.replace("?", `"${observation.answer}"`);
    case "look":
      return line.replace("?", "bad");
    case "count":
      return line.replace("good: ?", "good: 19").replace("of: ?", "of: 20");
    case "answer":
      return line.replace("?", observation.variant);
    case "reading":
      return line.replace("?", observation.probe.quantity === "insulation ohms" ? "155M" : "1");
  }
}

it.each([["  - told: {works: nothing}\n"], ["  - told: {trips the RCD: on}\n"], ["  - told: {works: sometimes}\n"]])(
  "every line offered after %j is read as the observation that was asked for",
  (events) => {
    const worked = workedBranch(events);
    const machines = worked.case.candidates.map(({ machine }) => machine);
    const observations = planOf(worked, "machine").steps.flatMap(({ questions }) =>
      questions.map(({ observation }) => observation),
    );
    expect(observations.length).toBeGreaterThan(0);
    for (const observation of observations) {
      const line = answered(observation, lineToWrite(observation));
      const job = must(readJob(branchJob(`${events}  ${line}\n`)));
      const last = must(foldJob(job, machines, worked.shop, worked.meters)).observations.at(-1)?.observation;
      expect(last === undefined ? line : asked(last)).toBe(asked(observation));
    }
  },
);

it("every line that opens, isolates, energises or mends is an event of a job", () => {
  const worked = workedBranch(
    "  - told: {works: nothing}\n  - measured: {from: heater.s1, to: heater.common, shows: OL}\n",
  );
  const machines = worked.case.candidates.map(({ machine }) => machine);
  const kinds = new Set<string>();
  for (const step of planOf(worked, "machine").steps) {
    const questions = step.questions.map(({ observation }) => lineToWrite(observation));
    const acts = linesToWrite(step).filter((line) => !questions.includes(line));
    const job = must(readJob(branchJob(acts.map((line) => `  ${line.replace("?", '"yes"')}\n`).join(""))));
    must(foldJob(job, machines, worked.shop, worked.meters));
    expect(job.events.map(({ kind }) => kind)).not.toContain("unknown");
    for (const { kind } of job.events) kinds.add(kind);
  }
  expect([...kinds]).toContain("did");
});
