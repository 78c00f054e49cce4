import { expect, test } from "vitest";
import { faultwright } from "./run-command.ts";

test("simulate prints a column a strategy, and the same for the same seed", () => {
  const args = ["simulate", "tumble-dryer", "--machines", "3", "--seed", "7", "--strategies", "swap,test"];
  const ran = faultwright(...args);
  expect(ran.err).toBe("");
  expect(ran.code).toBe(0);
  expect(ran.out).toMatch(/^a job +swapping +testing in order$/m);
  expect(ran.out).toMatch(/^cost, EUR +[1-9]\d+ +[1-9]\d+$/m);
  expect(faultwright(...args).out).toBe(ran.out);
});

test("simulate refuses an unknown sheet, an unknown strategy and no machines at all, with code 2", () => {
  expect(faultwright("simulate", "mangle").code).toBe(2);
  expect(faultwright("simulate", "tumble-dryer", "--strategies", "luck").err).toContain("Known: plan, swap, test.");
  expect(faultwright("simulate", "tumble-dryer", "--machines", "0").code).toBe(2);
});
