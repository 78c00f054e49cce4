// A victim and its cause: the cause is put right first, and its step carries its cautions and says what it cannot do.
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { planOf } from "../../src/core/ledger/index.ts";
import { worthNaming } from "../../src/shell/words/step.ts";
import { workedJob } from "./jobs.ts";

const job = readFileSync(new URL("../../examples/cold-victim-of-lint.yaml", import.meta.url), "utf8");
const found = `${job}  - isolated: two-pole tester\n  - looked: {at: lint, found: bad}\n  - why: {one-shot: lint}\n`;

it("lint that blew the fuse: cleaning warns of scorched lint, and does not claim to mend a cold dryer", () => {
  const { steps } = planOf(workedJob(found, { pairsAtMost: 200, candidatesAtMost: 1 }), "machine");
  const clean = steps.find(({ course }) => course?.on === "lint");
  expect(clean?.course?.mends).toBeLessThan(0.05);
  expect(clean?.settles).toMatch(/by itself it hardly mends/);
  expect(clean?.cautions.flatMap(({ lines }) => lines).join(" ")).toMatch(/scorched lint/);
  if (clean === undefined) throw new Error("no step cleans");
  expect(worthNaming([clean])).toEqual([]);
});
