import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { must, workedBranch } from "../../../test/machines/branch-job.ts";
import type { WorkedJob } from "../ledger/index.ts";
import { type Choices, choicesOf, readDuties, readLives } from "./index.ts";

const lives = must(readLives(readFileSync("data/lives/first-use.yaml", "utf8")));
const duties = must(readDuties(readFileSync("data/duties/spare-parts.yaml", "utf8")));

const HEATER =
  "  - measured: {from: heater.s1, to: heater.common, shows: OL, freed: [heater], meter: handheld-6000, leads: nulled}\n";

describe("choices on a branch whose heater reads open", () => {
  let worked: WorkedJob;
  let choices: Choices;
  const of = (job: WorkedJob): Choices => choicesOf(job, { lives, duties, date: "2026-03-04" });
  const row = (id: string) => choices.choices.find((choice) => choice.id === id);

  beforeAll(() => {
    worked = workedBranch(`  - allowed: {amount: 100, who: the tenant}\n${HEATER}`);
    choices = of(worked);
  });

  test("hold a new heater, and stopping as the last", () => {
    expect(choices.choices.map(({ way }) => way)).toContain("new part");
    expect(choices.choices.at(-1)?.way).toBe("stop");
  });

  test("pay for a new heater: call-out, work, part and a second visit, and no more", () => {
    const heater = choices.choices.find(({ way }) => way === "new part");
    if (heater === undefined) throw new Error("no new part");
    const { shop, state } = worked;
    const part = 0.13 * shop.newMachine;
    expect(heater.pays.lo).toBeLessThan(heater.pays.mean);
    expect(heater.pays.mean).toBeLessThan(heater.pays.hi);
    const work = ((state.work.minutes + heater.minutes) * shop.perHour) / 60;
    expect(Math.abs(heater.pays.mean - (shop.callOut + shop.secondVisit + work + part))).toBeLessThan(
      0.1 * heater.pays.mean,
    );
    expect(heater.order).toMatchObject({ days: { lo: 2, hi: 5 } });
    expect(heater.overLimit).toBe(true);
  });

  test("never cost less in the end than what is paid, and promise odds between 0 and 1", () => {
    for (const { pays, inTheEnd, cured, back } of choices.choices) {
      expect(inTheEnd.mean).toBeGreaterThanOrEqual(pays.mean - 1e-9);
      expect(pays.lo).toBeLessThanOrEqual(pays.hi);
      for (const p of [cured, back ?? 0]) expect(p >= 0 && p <= 1).toBe(true);
    }
  });

  test("stopping pays the call-out and the diagnosis, 84, and loses the machine", () => {
    const stop = row("stop");
    expect(stop?.pays).toEqual({ lo: 84, mean: 84, hi: 84 });
    // Half way through 13 years, of a machine that costs 550 new.
    expect(stop?.inTheEnd.mean).toBeCloseTo(84 + 275, 6);
  });

  test("name who may decide up to what, and who pays", () => {
    expect(choices.allowed).toMatchObject({ amount: 100, who: "the tenant" });
    expect(of(workedBranch("  - payer: Ostermoor Lettings\n")).payer).toBe("Ostermoor Lettings");
  });

  test("offer a used part only where the shop does, cheaper, likelier to come back, and no used protector", () => {
    const { trading } = worked.shop;
    if (trading === undefined) throw new Error("the demonstration shop trades");
    const used = { parts: new Set(["heater", "cut-out"]), price: 0.4, cured: 0.9, back: 0.2 };
    const guaranteeMonths = { new: 12, used: 12 };
    const shop = { ...worked.shop, trading: { ...trading, used, guaranteeMonths } };
    const offered = of({ ...worked, shop }).choices;
    const old = offered.find(({ way }) => way === "used part");
    const fresh = offered.find(({ id }) => `${id}, used` === old?.id);
    expect(old?.id).toMatch(/^heater\/.*, used$/);
    expect(old?.pays.mean).toBeLessThan(fresh?.pays.mean ?? 0);
    expect(old?.cured).toBeCloseTo(0.9 * (fresh?.cured ?? 0), 9);
    expect(old?.back).toBeGreaterThan(fresh?.back ?? 1);
    expect(offered.filter(({ id }) => /cut-?out.*, used/.test(id))).toEqual([]);
  });

  test("of a shop that tells nothing of fees and guarantee speak of twelve months and time already spent", () => {
    const { trading: _trading, ...shop } = worked.shop;
    const bare = of({ ...worked, shop });
    expect(bare.diagnosis).toBeUndefined();
    expect(bare.choices.every(({ guaranteeMonths }) => guaranteeMonths === undefined)).toBe(true);
    const spent = (worked.state.work.minutes * shop.perHour) / 60;
    expect(bare.choices.at(-1)?.pays.mean).toBeCloseTo(shop.callOut + spent, 6);
  });

  test("are the same twice", () => {
    expect(JSON.stringify(of(worked))).toBe(JSON.stringify(choices));
  });
});

test("a fault that is not found is offered to be found, a fault that is found is not", () => {
  const open = choicesOf(workedBranch(""), { lives, duties }).choices.map(({ way }) => way);
  expect(open[0]).toBe("find and mend");
  const found = choicesOf(workedBranch(HEATER), { lives, duties });
  expect(found.likeliest?.p).toBeGreaterThan(0.9);
  expect(found.choices.map(({ way }) => way)).not.toContain("find and mend");
});
