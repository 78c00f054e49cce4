import { expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { sheetOf, smallDryerText } from "../../../test/sheets/read.ts";
import { checkAnswers, combinations, slotWords } from "./combine.ts";

const library = shippedLibrary();
const sheet = sheetOf(smallDryerText, library);

test("the small dryer has 28 combinations, and their weights sum to 1", () => {
  // vented or condenser × stages × (running contact: 3 controls, magnet: 2 boards); a condenser's tank: 2 with a board, 1 with the timer.
  const all = combinations(sheet);
  const byHand = 2 * ((3 + 2) * 1 + (2 + 2) * 2 + 1 * 1);
  expect(all).toHaveLength(byHand);
  expect(all.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
});

test("a weight is the product of the shares over what is allowed: two stages 60 to one stage 40", () => {
  const all = combinations(sheet);
  const two = all.filter(({ choice }) => choice.get("stages") === "two").reduce((sum, { weight }) => sum + weight, 0);
  expect(two).toBeCloseTo(0.6, 12);
  const magnet = all.filter(({ choice }) => choice.get("motor-watch")?.startsWith("drum"));
  expect(magnet.length).toBeGreaterThan(0);
  expect(magnet.every(({ choice }) => choice.get("control") !== "timer")).toBe(true);
});

test("the commonest comes first", () => {
  const weights = combinations(sheet).map(({ weight }) => weight);
  expect(weights).toEqual([...weights].sort((a, b) => b - a));
});

test("an answer leaves the other slots as they stood to one another", () => {
  const all = combinations(sheet).filter(({ choice }) => choice.get("control") === "timer");
  const total = all.reduce((sum, { weight }) => sum + weight, 0);
  const answered = combinations(sheet, new Map([["control", "timer"]]));
  expect(answered).toHaveLength(all.length);
  answered.forEach(({ weight }, index) => {
    expect(weight).toBeCloseTo((all[index]?.weight ?? 0) / total, 12);
  });
});

test("an answer to a slot that is only there with a tank says that there is a tank", () => {
  const answered = combinations(sheet, new Map([["condensate", "tank below"]]));
  expect(answered.length).toBeGreaterThan(0);
  expect(answered.every(({ choice }) => choice.get("air") === "condenser")).toBe(true);
});

test("answers that exclude one another leave nothing, and are said to", () => {
  const answers = new Map([
    ["air", "vented"],
    ["condensate", "tank below"],
  ]);
  expect(combinations(sheet, answers)).toEqual([]);
  expect(checkAnswers(sheet, answers)).toMatchObject([
    { code: "sheet.answer", found: "air: vented, condensate: tank below" },
  ]);
});

test("unknown slots and variants are named with the near ones", () => {
  const answers = new Map([
    ["contrl", "timer"],
    ["stages", "tow"],
  ]);
  expect(checkAnswers(sheet, answers)).toMatchObject([
    { hint: "Did you mean control?" },
    { hint: "Did you mean two?" },
  ]);
});

test("every slot has its question and a look for each of its variants", () => {
  expect(slotWords(sheet).get("stages")).toEqual({
    ask: "How many thick wires go to the heater?",
    looks: new Map([
      ["one", "two wires"],
      ["two", "three wires"],
    ]),
  });
});
