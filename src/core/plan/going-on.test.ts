import { expect, test } from "vitest";
import { accessGroup, type HandPart, handMachine } from "../../../test/machines/hand-case.ts";
import { ids, type Odds, plan, signRule, type Tables, yes } from "../../../test/machines/hand-plan.ts";

/** Twelve suspects as likely, each behind a cover of its own of 40 minutes: to look for one after the other is not worth it. */
const suspects = Array.from(
  { length: 12 },
  (_, n): HandPart => ({ id: `s${n}`, part: 0.1, access: `c${n}`, looks: "burnt" }),
);
const covers = suspects.map((_, n) => accessGroup(`c${n}`, 40));
const even: Odds = suspects.map(({ id }) => [[id], 1]);
/** A look at one suspect shows something in 6 of 10: a poor bargain behind such a cover. */
const looks: Tables = Object.fromEntries(
  suspects.map(({ id }) => [
    `look:${id}`,
    {
      outcomes: ["bad", "good"],
      chance: (faulty: readonly string[]) => (faulty.includes(id) ? [0.6, 0.4] : [0.02, 0.98]),
    },
  ]),
);
const named = (...which: readonly number[]): string[] => which.map((n) => `s${n}`);

test("goes on before stopping while a question of half a minute halves 12 suspects, though what follows is dear", () => {
  const machine = handMachine(suspects, { access: covers, signs: [signRule("hums")] });
  const tables: Tables = { ...looks, "told:hums": { outcomes: ["yes", "no"], chance: yes(named(0, 1, 2, 3, 4, 5)) } };
  const made = plan(machine, suspects, even, tables, { shop: { newMachine: 600 } });
  expect(ids(made)[0]).toBe("ask:customer");
  // Tested one by one they are dearer than the machine is worth; known, they cost 106.
  expect(made.base).toBe(310);
  expect(made.least).toBeCloseTo(106, 9);
});

test("stops where the question tells nothing of them", () => {
  const machine = handMachine(suspects, { access: covers, signs: [signRule("hums")] });
  const tables: Tables = { ...looks, "told:hums": { outcomes: ["yes", "no"], chance: () => [0.5, 0.5] } };
  expect(ids(plan(machine, suspects, even, tables, { shop: { newMachine: 600 } }))[0]).toBe("stop");
});

test("after a repair two joints of a board, 5 in 10 each, do not get a whole board fitted before the repair was looked at", () => {
  const exactly = (nominal: number) => ({ nominal, lo: nominal, hi: nominal, spread: "exact" as const });
  const joints: HandPart[] = ["one", "other"].map((id) => ({ id, of: "control", minutes: 15, access: "back" }));
  const machine = handMachine(joints, {
    access: [accessGroup("back", 12)],
    assemblies: [
      {
        id: "control",
        says: "control board",
        access: "back",
        minutes: exactly(15),
        partShare: exactly(0.33),
        cured: 0.93,
        back: 0.05,
        coding: true,
      },
    ],
  });
  const repair = { event: "e4", remedy: "clean", on: "lint", looked: false, path: [] };
  const odds: Odds = joints.map(({ id }) => [[id], 1]);
  expect(ids(plan(machine, joints, odds, {}, { state: { repairs: [repair] } }))[0]).toBe("verify:e4");
});
