// What was already read good is told beside the next step, with the faults it cleared; a reading that is amiss is not.
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readGood } from "../../src/core/ledger/index.ts";
import { whyStepInWords } from "../../src/shell/words/why-step.ts";
import { openJob, workedJob } from "./jobs.ts";

const cold = readFileSync(new URL("../../examples/cold-one-pole.yaml", import.meta.url), "utf8");
const LESS = { pairsAtMost: 200, candidatesAtMost: 1 };

it("a live pole that carries 228 V clears what would not ask for heat", () => {
  const [good, ...rest] = readGood(workedJob(cold, LESS));
  expect(rest).toEqual([]);
  expect(good?.reading.probe.from).toBe("X3.1");
  expect(good?.clears).toContain("temperature sensor: open");
});

it("the same pole without volts is not read good", () => {
  expect(readGood(workedJob(cold.replace("volts: 228 V", "volts: 0 V"), LESS))).toEqual([]);
});

it("the step says what was read, that it is good, and what it settles", () => {
  const [first] = openJob("examples/cold-one-pole.yaml", LESS).plan().steps;
  if (first === undefined) throw new Error("no step");
  expect(whyStepInWords(first, readGood(workedJob(cold, LESS)))).toMatch(
    /^X3\.1 to X1\.2 \(LIVE, heat\) read 228 V: good, so hardly .+; this tells .+/,
  );
  expect(whyStepInWords(first, [])).toBe(first.settles);
});
