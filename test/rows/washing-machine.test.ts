// Every row of the trade's table for washing machines as a small job: the complaint and the readings a technician would take
// first. What must come out was written down in expected-washing-machine.yaml before any of it was run (common practice, no source).
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { readWith } from "../../src/core/part/index.ts";
import { checkRuns } from "../../src/core/run/index.ts";
import { checkSheet } from "../../src/core/sheet/index.ts";
import type { Belief } from "../../src/core/suspect/index.ts";
import { shippedMachine } from "../machines/shipped.ts";
import { readShipped } from "./dryer.ts";
import { must, openJob } from "./jobs.ts";

const LESS = { pairsAtMost: 2000, candidatesAtMost: 3 };

const expected = must(
  readWith(
    readFileSync(new URL("expected-washing-machine.yaml", import.meta.url), "utf8"),
    "expected-washing-machine.yaml",
    (root) =>
      (root.need("jobs")?.entries() ?? []).map(([job, at]) => ({
        job,
        row: at.need("row")?.word() ?? "",
        among: at.need("among")?.number(1, 3) ?? 1,
        parts: at.need("parts")?.words() ?? [],
      })),
  ),
);

/** Place of the first part that is one of these in the list of possible faults, from 1; 0 when none is. */
function placeOf(belief: Belief, wanted: readonly string[]): number {
  const patterns = wanted.map(
    (name) => new RegExp(`^${name.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*")}$`),
  );
  return belief.parts.findIndex(({ part }) => patterns.some((pattern) => pattern.test(part))) + 1;
}

describe("the washing machine's fault comes out where a technician expects it", () => {
  it.each(expected)(
    "$row, $job: among the first $among",
    ({ job, among, parts }) => {
      const { belief } = openJob(`test/rows/${job}.yaml`, LESS);
      const place = placeOf(belief, parts);
      const list = belief.parts.slice(0, 5).map(({ part, p }) => `${part} ${p.toFixed(2)}`);
      expect(place, `possible faults were ${list.join(", ")}`).toBeGreaterThan(0);
      expect(place, `possible faults were ${list.join(", ")}`).toBeLessThanOrEqual(among);
    },
    60_000,
  );

  it("has a job for each of the 22 rows", () => {
    const rows = new Set(expected.map(({ row }) => row));
    for (let n = 1; n <= 22; n++) expect(rows, `row W${n}`).toContain(`W${n}`);
  });
});

describe("the washing machine's sheet", () => {
  it("has nothing to say in any of its 32 combinations", () => {
    const { sheet, library } = readShipped("washing-machine");
    expect(checkSheet(sheet, library)).toEqual([]);
  }, 60_000);

  it.each([
    {},
    { motor: "brushes and a triac", level: "contact pressure switch" },
    { lock: "pulse", "heater-poles": "two" },
    { motor: "brushes and a triac", lock: "pulse", "heater-fuses": "none" },
  ])(
    "runs a good machine and each way of failing without an issue: %j",
    (answers) => {
      const machine = shippedMachine("washing-machine", answers);
      expect(checkRuns(machine, modesOf(machine))).toEqual([]);
    },
    60_000,
  );
});
