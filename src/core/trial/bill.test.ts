import { describe, expect, test } from "vitest";
import { accessGroup, HAND_SHOP, handMachine } from "../../../test/machines/hand-case.ts";
import type { JobEvent } from "../ledger/index.ts";
import type { Course } from "../remedy/index.ts";
import { stopCost } from "../remedy/index.ts";
import { billOf } from "./bill.ts";
import { JobPaper, type Remedy } from "./history.ts";

const machine = handMachine([{ id: "heater", access: "back" }, { id: "motor" }], { access: [accessGroup("back", 10)] });
const { minutes } = HAND_SHOP;

const course = (id: string, price: number, more: Partial<Course> = {}): Course => ({
  id,
  on: id.split("/")[0],
  remedy: id.split("/")[1],
  says: id,
  minutes: 20,
  price,
  fetched: false,
  cured: 1,
  back: 0,
  steps: [],
  assembly: false,
  cost: 0,
  ...more,
});

function billed(
  write: (paper: JobPaper, remedies: Map<string, Remedy>) => void,
  ended: "mended" | "stopped",
  cameBack = false,
) {
  const paper = new JobPaper();
  const remedies = new Map<string, Remedy>();
  write(paper, remedies);
  return billOf({ events: paper.events as readonly JobEvent[], remedies, ended, cameBack }, machine, HAND_SHOP);
}

describe("a bill adds up", () => {
  test("two questions, a look behind the back, a heater fitted, seen to work, closed up", () => {
    const bill = billed((paper, remedies) => {
      paper.write({
        kind: "told",
        answers: [
          { sign: "heat", answer: "cold" },
          { sign: "drum", answer: "yes" },
        ],
      });
      paper.write({ kind: "opened", access: ["back"] });
      paper.write({ kind: "isolated" });
      paper.write({ kind: "looked", at: "heater", found: "bad" });
      const did = paper.write({ kind: "did", on: "heater", remedy: "new", price: 50 });
      remedies.set(did.id, { course: course("heater/new", 50, { fetched: true }), right: true });
      paper.write({ kind: "energised" });
      paper.write({ kind: "seen", answers: [{ sign: "heat", answer: "hot" }] });
    }, "mended");
    // Plug out 0.3; covers 5 to open and 5 to close; then the shop's own minutes.
    const worked =
      2 * minutes.ask + 0.3 + 5 + minutes.proveDead + minutes.look + 20 + minutes.energise + minutes.verify + 5;
    expect(bill.minutes).toBeCloseTo(worked, 9);
    expect(bill.money).toBeCloseTo((worked * HAND_SHOP.perHour) / 60 + 50 + HAND_SHOP.secondVisit, 9);
    expect(bill).toMatchObject({ parts: 50, secondVisits: 1, fitted: 1, wrong: 0, remade: 0, mended: true });
  });

  test("a good part replaced is wrong; cleaning and a splice are no parts; a return and a stop cost what the shop's file says", () => {
    const swapped = billed((paper, remedies) => {
      const first = paper.write({ kind: "did", on: "motor", remedy: "new", price: 80 });
      remedies.set(first.id, { course: course("motor/new", 80), right: false });
      const second = paper.write({ kind: "did", on: "heater", remedy: "clean", price: 0 });
      remedies.set(second.id, { course: course("heater/clean", 0), right: false });
    }, "stopped");
    expect(swapped).toMatchObject({ fitted: 1, wrong: 1, mended: false });
    expect(swapped.money).toBeCloseTo(((0.3 + 40) * HAND_SHOP.perHour) / 60 + 80 + stopCost(HAND_SHOP), 9);
    const spliced = billed((paper, remedies) => {
      const did = paper.write({ kind: "did", on: "loom", remedy: "splice", price: 5 });
      remedies.set(did.id, { course: course("loom/splice", 5, { remakes: true }), right: false });
    }, "mended");
    expect(spliced).toMatchObject({ parts: 5, fitted: 0, wrong: 0, remade: 1 });
    const back = billed(() => undefined, "mended", true);
    expect(back.money).toBeCloseTo(HAND_SHOP.comeback, 9);
  });
});
