import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { workedBranch } from "../../../test/machines/branch-job.ts";
import { planOf } from "../../core/ledger/index.ts";
import { faultsForPrograms, nextForPrograms, questionsForPrograms } from "./for-programs.ts";

const READ = "  - told: {works: nothing}\n  - measured: {from: plug.L, to: plug.N, shows: OL}\n";
const MENDED = `${READ}  - did: {remedy: fit a new heater, on: heater, worked: "yes"}\n`;
const told = new Set(
  [...readFileSync("docs/json.md", "utf8").matchAll(/`([^`\n]+)`/g)].map((match) =>
    (match[1] ?? "").replaceAll('"', ""),
  ),
);

/** Keys of objects anywhere inside. Hands are named by the sheet. */
function keysOf(value: unknown, found: Set<string> = new Set()): Set<string> {
  if (Array.isArray(value)) for (const one of value) keysOf(one, found);
  else if (value !== null && typeof value === "object") {
    for (const [key, inside] of Object.entries(value)) {
      found.add(key);
      if (key !== "hands") keysOf(inside, found);
    }
  }
  return found;
}

it.each([
  ["a job that was told of", READ],
  ["a mended one", MENDED],
])("%s: every key that --json prints is told in docs/json.md, and everything is plain data", (_what, events) => {
  const worked = workedBranch(events);
  const all = [
    nextForPrograms(worked, planOf(worked, "machine")),
    questionsForPrograms(worked, planOf(worked, "telephone")),
    faultsForPrograms(worked),
  ];
  expect([...keysOf(all)].filter((key) => !told.has(key))).toEqual([]);
  expect(JSON.parse(JSON.stringify(all))).toEqual(all);
});

it("the observations of a mended job are all there, those before the repair as not counting", () => {
  const { observations } = faultsForPrograms(workedBranch(MENDED));
  expect(observations.map(({ event, counts }) => [event, counts])).toEqual([
    [1, false],
    [2, false],
  ]);
});
