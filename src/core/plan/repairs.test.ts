import { describe, expect, test } from "vitest";
import { accessGroup, type HandPart, handMachine } from "../../../test/machines/hand-case.ts";
import { ids, plan, signRule, yes } from "../../../test/machines/hand-plan.ts";
import type { Repair } from "./work-state.ts";

const parts: HandPart[] = [
  { id: "pump", part: 0.1, access: "back" },
  { id: "belt", part: 0.1, access: "side" },
];
const machine = handMachine(parts, {
  access: [accessGroup("back", 12), accessGroup("side", 12)],
  signs: [signRule("hums")],
});
const tables = { "told:hums": { outcomes: ["yes", "no"], chance: yes(["pump"]) } };
const done = (more: Partial<Repair>): Repair => ({
  event: "e1",
  remedy: "new",
  on: "pump",
  looked: true,
  path: [],
  ...more,
});

describe("what can be done", () => {
  test("leaves out a new part that is as likely to be for nothing: 45 in 100 against 55", () => {
    const made = plan(
      machine,
      parts,
      [
        [["pump"], 0.45],
        [["belt"], 0.55],
      ],
      {},
    );
    expect(ids(made)).toContain("do:belt/new");
    expect(ids(made)).not.toContain("do:pump/new");
  });

  test("is no new part at 7 in 10 while the machine can still be watched for 20 minutes; at 9 in 10 it is fitted at once", () => {
    const cheap: HandPart[] = [
      { id: "pump", part: 0.02, access: "back" },
      { id: "belt", part: 0.02, access: "side" },
    ];
    const watched = handMachine(cheap, {
      access: [accessGroup("back", 4), accessGroup("side", 4)],
      signs: [signRule("drips", { minutes: 20 })],
    });
    const shows = { "seen:drips": { outcomes: ["yes", "no"], chance: yes(["pump"]) } };
    const at = (p: number) =>
      plan(
        watched,
        cheap,
        [
          [["pump"], p],
          [["belt"], 1 - p],
        ],
        shows,
        { shop: { wrongPart: 40 } },
      );
    expect(ids(at(0.7))[0]).toBe("see:run");
    expect(ids(at(0.9))[0]).toBe("do:pump/new");
  });

  test("names once more what was done and did not help, with half the chance; not a third time", () => {
    const odds = [
      [["pump"], 0.9],
      [["belt"], 0.1],
    ] as const;
    expect(ids(plan(machine, parts, odds, {}))).toContain("do:pump/new");
    const afterDoing = (times: number) =>
      plan(machine, parts, odds, {}, { state: { repairs: Array(times).fill(done({ worked: false })) } });
    const course = (times: number) => afterDoing(times).steps.find(({ id }) => id === "do:pump/new")?.course;
    expect(course(1)?.says).toMatch(/, once more$/);
    expect(course(1)?.cured).toBeCloseTo((course(0)?.cured ?? 0) / 2, 12);
    expect(ids(afterDoing(2))).not.toContain("do:pump/new");
  });

  test("is followed by no small question once the machine is said to work", () => {
    const odds = [
      [["pump"], 0.5],
      [["belt"], 0.5],
    ] as const;
    expect(ids(plan(machine, parts, odds, tables))).toContain("ask:customer");
    const after = plan(machine, parts, odds, tables, { state: { repairs: [done({ worked: true })] } });
    expect(ids(after)).not.toContain("ask:customer");
  });
});
