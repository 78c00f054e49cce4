import { expect, test } from "vitest";
import { foldJob } from "../../src/core/ledger/index.ts";
import { parseShown } from "../../src/core/meter/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import { meters, must, shop } from "../rows/jobs.ts";
import { demoFaults } from "./demo-faults.ts";
import { DemoMachine, demoJob, demoJobs } from "./demo-machine.ts";

/** Parts lie within their tolerances of the plate: a story's reading and its exact machine differ by no more than this. */
const NEAR = 0.2;

test("every job of the demonstration hides a fault", () => {
  expect(Object.keys(demoFaults).sort()).toEqual([...demoJobs].sort());
});

test.each(demoJobs)("%s: its hidden fault shows what its story read and noticed", (name) => {
  const machine = new DemoMachine(name);
  const { machine: type, failsOn } = { ...machine.hidden.truth.drawn };
  const { observations } = must(foldJob(demoJob(name), [type], shop, meters));
  // What comes and goes is there or not as chance has it, and a table gives odds.
  const computed = new Set(type.signs.filter(({ rule }) => rule.kind !== "table").map(({ id }) => id));
  const isSure = (one: Observation) => (one.kind === "sign" && failsOn === 1 ? computed.has(one.sign) : isShown(one));
  const told = observations.map(({ observation }) => observation).filter(isSure);
  expect(told.filter((one) => !agrees(one, machine.answered(one, "story")))).toEqual([]);
});

function isShown(one: Observation): boolean {
  return one.kind === "reading" && ["ohms", "volts", "watts"].includes(one.probe.quantity);
}

function agrees(told: Observation, answer: string | undefined): boolean {
  if (told.kind === "sign") return told.answer === answer;
  if (told.kind !== "reading" || answer === undefined) return false;
  const shown = must(parseShown(answer, told.probe.quantity));
  if (shown.kind !== "value" || told.shown.kind !== "value") return shown.kind === told.shown.kind;
  return Math.abs(shown.value - told.shown.value) <= NEAR * told.shown.value;
}
