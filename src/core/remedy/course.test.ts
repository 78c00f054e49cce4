import { describe, expect, test } from "vitest";
import { HAND_SHOP, handMachine, handMode } from "../../../test/machines/hand-case.ts";
import { coursesFor, matchesName } from "./course.ts";
import { cureOf } from "./cure.ts";
import { stopCost } from "./worth.ts";

describe("what can be done", () => {
  test("costs work, part, second visit and its share of a return: 10 + 60 + 30 + 0.9 × 0.05 × 100", () => {
    const parts = [{ id: "heater", part: 0.1, minutes: 10, cured: 0.9, back: 0.05 }];
    const machine = handMachine(parts);
    const [course] = coursesFor(machine, handMode(machine, "heater", parts), HAND_SHOP);
    expect(course).toMatchObject({ id: "heater/new", minutes: 10, price: 60, fetched: true, cured: 0.9, back: 0.05 });
    expect(course?.cost).toBeCloseTo(104.5, 12);
    const carried = { ...HAND_SHOP, van: new Set(["heater"]) };
    expect(coursesFor(machine, handMode(machine, "heater", parts), carried)[0]?.cost).toBeCloseTo(74.5, 12);
  });

  test("for an opened protector comes back in 9 of 10 until its cause is known", () => {
    const parts = [{ id: "fuse", victim: true, back: 0.08 }];
    const table = new Map([
      [
        "fuse",
        new Map([
          ["lint", 0.9],
          ["itself", 0.1],
        ]),
      ],
    ]);
    const machine = handMachine(parts, { whyOpen: table });
    const mode = handMode(machine, "fuse", parts);
    expect(coursesFor(machine, mode, HAND_SHOP)[0]).toMatchObject({ back: 0.9, asksWhy: "fuse" });
    expect(coursesFor(machine, mode, HAND_SHOP, new Set(["fuse"]))[0]?.back).toBe(0.08);
    expect(coursesFor(machine, mode, HAND_SHOP, new Set(["fuse"]))[0]?.asksWhy).toBeUndefined();
  });

  test("names match whole, by beginning, by both ends, or all", () => {
    expect(matchesName("all", "anything")).toBe(true);
    expect(matchesName("contact*", "contact1 burnt")).toBe(true);
    expect(matchesName("contact* burnt", "contact1 burnt")).toBe(true);
    expect(matchesName("contact* burnt", "contact1 welded")).toBe(false);
    expect(matchesName("contact", "contact1")).toBe(false);
  });
});

describe("a known fault", () => {
  const course = (id: string, cost: number, cured: number) => ({
    id,
    on: "x",
    remedy: id,
    says: id,
    minutes: 0,
    price: 0,
    fetched: false,
    cured,
    back: 0,
    steps: [],
    assembly: false,
    cost,
  });

  test("is cleaned for 20 at 8 in 10 before the new part of 90: 20 + 0.2 × 90", () => {
    const cure = cureOf([course("new", 90, 1), course("clean", 20, 0.8)], 1000, 0);
    expect(cure.courses.map((one) => one.id)).toEqual(["clean", "new"]);
    expect(cure.cost).toBeCloseTo(38, 12);
    expect(cure.mended).toBeCloseTo(1, 12);
  });

  test("is not mended when stopping loses 80 and the part costs 90", () => {
    const cure = cureOf([course("new", 90, 1)], 80, 0);
    expect(cure.courses).toEqual([]);
    expect(cure.cost).toBe(80);
    expect(cure.mended).toBe(0);
  });

  test("pays for finding out after each try: (20 + 6) + 0.2 × (90 + 6)", () => {
    expect(cureOf([course("clean", 20, 0.8), course("new", 90, 1)], 1000, 6).cost).toBeCloseTo(45.2, 12);
  });
});

describe("an honest stop", () => {
  test("loses what is left of 12 years: half at 6, three years' worth at 20, half where the age is not known", () => {
    const wrapUp = 10;
    expect(stopCost(HAND_SHOP, 6)).toBeCloseTo(300 + wrapUp, 9);
    expect(stopCost(HAND_SHOP, 20)).toBeCloseTo(150 + wrapUp, 9);
    expect(stopCost(HAND_SHOP)).toBeCloseTo(300 + wrapUp, 9);
    expect(stopCost(HAND_SHOP, 6, 900)).toBeCloseTo(450 + wrapUp, 9);
  });
});
