import { expect, test } from "vitest";
import type { PlanStep, StepOutcome } from "../../core/plan/index.ts";
import { outcomesOf } from "./outcomes.ts";

const part = (id: string, p: number) => ({ id, says: id, p });

function stepWith(outcomes: readonly StepOutcome[]): PlanStep {
  const probe = { id: "ohms", quantity: "ohms" } as PlanStep["questions"][number]["probe"];
  const question = {
    says: "",
    observation: {},
    bands: [],
    others: 0,
    probe,
  } as unknown as PlanStep["questions"][number];
  return { questions: [question], outcomes } as unknown as PlanStep;
}

const band = (lo: number, hi: number, chance: number, id: string, p: number): StepOutcome => ({
  found: [{ question: 0, says: `${lo} Ω to ${hi} Ω`, reach: { lo, hi } }],
  chance,
  parts: [part(id, p)],
  leadsTo: { do: "check", says: id },
});

test("three bands side by side, met out of order, that lead to the same are told as one: 20 to 88 Ω", () => {
  const told = outcomesOf(
    stepWith([
      band(20, 30, 0.3, "heater", 0.9),
      band(47, 88, 0.2, "heater", 0.5),
      band(30, 47, 0.1, "heater", 0.9),
      band(200, 300, 0.4, "pump", 0.9),
    ]),
  );
  expect(told.map(({ ways }) => ways)).toEqual([["20 – 88 Ω"], ["200 Ω to 300 Ω"]]);
  // (0.3 x 0.9 + 0.2 x 0.5 + 0.1 x 0.9) / 0.6 = 0.77
  expect(told[0]?.lead).toBe("heater, about 8 in 10. Then check: heater.");
});

test("bands with a gap between them, or that lead elsewhere, stay apart", () => {
  const told = outcomesOf(
    stepWith([band(20, 30, 0.3, "heater", 0.9), band(40, 50, 0.3, "heater", 0.9), band(30, 40, 0.4, "pump", 0.9)]),
  );
  expect(told.map(({ ways }) => ways)).toEqual([["20 Ω to 30 Ω", "40 Ω to 50 Ω"], ["30 Ω to 40 Ω"]]);
});

test("where every way leads to the same it is said once", () => {
  const [only, ...rest] = outcomesOf(stepWith([band(20, 30, 0.5, "heater", 0.9), band(40, 50, 0.5, "heater", 0.9)]));
  expect(rest).toEqual([]);
  expect(only?.ways).toEqual(["whatever it shows"]);
});

test("what comes out in more than three ways is told last, as anything else; rare ways are no way of their own", () => {
  const gaps = [0, 20, 40, 60].map((lo) => band(lo, lo + 10, 0.15, "heater", 0.9));
  const rare: StepOutcome = {
    found: [],
    chance: 0.05,
    parts: [part("heater", 0.5)],
    leadsTo: { do: "check", says: "heater" },
  };
  const told = outcomesOf(stepWith([...gaps, band(200, 300, 0.35, "pump", 0.9), rare]));
  expect(told.map(({ ways }) => ways)).toEqual([["200 Ω to 300 Ω"], ["anything else"]]);
  expect(told[1]?.lead).toMatch(/^heater, .* Then check: heater\.$/);
});

test("one likely way is not called whatever it shows when something else may come", () => {
  const [only] = outcomesOf(stepWith([band(20, 30, 0.6, "heater", 0.9)]));
  expect(only?.ways).toEqual(["20 Ω to 30 Ω"]);
});
