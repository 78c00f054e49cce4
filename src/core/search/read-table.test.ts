import { describe, expect, it } from "vitest";
import { askPlan } from "./ask-plan.ts";

type Draft = { [key: string]: unknown };

function draft(): Draft {
  return {
    format: "faultwright-table/1",
    groups: [{ id: "g", cost: 3 }],
    causes: [
      { id: "a", prior: 0.25, repair: { cost: 12, group: "g" } },
      { id: "b", prior: 0.75, repair: { cost: 5, group: null } },
    ],
    tests: [{ id: "t", cost: 2, group: null, outcomes: 2, chance: { a: [0.9, 0.1], b: [0.2, 0.8] } }],
    stop: { cost: 50 },
  };
}

const test = (change: Draft): Draft => ({
  tests: [{ id: "t", cost: 2, outcomes: 2, chance: { a: [0.9, 0.1], b: [0.2, 0.8] }, ...change }],
});
const causes = (first: Draft, second: Draft = {}): Draft => ({
  causes: [
    { id: "a", prior: 0.25, repair: { cost: 12 }, ...first },
    { id: "b", prior: 0.75, repair: { cost: 5 }, ...second },
  ],
});

function faults(change: Draft): readonly string[] {
  const answer = askPlan({ ...draft(), ...change });
  return answer.ok ? [] : answer.issues.map(({ at, code }) => `${at.join(".")}: ${code}`);
}

describe("what a table must hold", () => {
  it("takes a good one without a word", () => {
    expect(askPlan(draft())).toMatchObject({ ok: true, warnings: [] });
  });

  it.each<[string, Draft, string]>([
    ["no format", { format: undefined }, "format: table.format"],
    ["no causes", { causes: [] }, "causes: table.empty"],
    ["causes that are no list", { causes: {} }, "causes: table.shape"],
    ["priors that sum to 0.9", causes({ prior: 0.15 }), "causes: table.sum"],
    ["a prior of 1.2", causes({ prior: 1.2 }), "causes.0.prior: table.chance"],
    ["a prior that is no number", causes({ prior: Number.NaN }), "causes.0.prior: table.chance"],
    ["one id twice", causes({}, { id: "a" }), "causes.1.id: table.twice"],
    ["a cause without a name", causes({ id: "" }), "causes.0.id: table.id"],
    ["a cause without a repair", causes({ repair: undefined }), "causes.0.repair: table.shape"],
    ["a repair at -1", causes({ repair: { cost: -1 } }), "causes.0.repair.cost: table.cost"],
    ["an unknown group", causes({ repair: { cost: 1, group: "x" } }), "causes.0.repair.group: table.unknown"],
    ["a test at infinity", test({ cost: Number.POSITIVE_INFINITY }), "tests.0.cost: table.cost"],
    ["a test of 1.5 outcomes", test({ outcomes: 1.5 }), "tests.0.outcomes: table.outcomes"],
    ["a row that sums to 1.1", test({ chance: { a: [0.9, 0.2], b: [0.2, 0.8] } }), "tests.0.chance.a: table.sum"],
    ["a row of 3 for 2 outcomes", test({ chance: { a: [0.9, 0.1, 0], b: [0, 1] } }), "tests.0.chance.a: table.row"],
    ["a missing row", test({ chance: { a: [0.9, 0.1] } }), "tests.0.chance.b: table.row"],
    [
      "a row of an unknown cause",
      test({ chance: { a: [1, 0], b: [0, 1], z: [1, 0] } }),
      "tests.0.chance.z: table.unknown",
    ],
    ["a stop without a cost", { stop: {} }, "stop.cost: table.cost"],
  ])("refuses %s and names the field", (_, change, expected) => {
    expect(faults(change)).toContain(expected);
  });

  it("finds all 4 faults of one table in one go", () => {
    expect(faults({ format: 1, stop: { cost: -1 }, ...causes({ prior: 2 }), ...test({ cost: "2" }) })).toHaveLength(4);
  });

  it("takes chances rounded to 3 digits in proportion, and unknown fields, each with 1 warning", () => {
    const rounded = askPlan({ ...draft(), ...causes({ prior: 0.2495 }), note: "x" });
    expect(rounded.ok && rounded.warnings.map(({ code }) => code).sort()).toEqual(["table.field", "table.rounded"]);
  });

  it.each([null, 1, "x", [], Number.NaN])("refuses %j in place of a table", (json) => {
    expect(askPlan(json).ok).toBe(false);
  });

  it.each([0, -1, 1.5, Number.NaN])("refuses work %j", (work) => {
    expect(askPlan(draft(), { work }).ok).toBe(false);
  });
});
