import { expect, test } from "vitest";
import { parseSlotTest, type SlotTest, slotTestHolds } from "./slot-test.ts";

const slots = new Map([
  ["control", ["timer", "board", "board, one heater pole"]],
  ["stages", ["one", "two"]],
]);

function parse(text: string): SlotTest {
  const read = parseSlotTest(text, slots, { at: [] });
  if (!read.ok) throw new Error(read.issues[0]?.expected);
  return read.value;
}

const choice = (control: string, stages: string) =>
  new Map([
    ["control", control],
    ["stages", stages],
  ]);

test("a variant whose name begins like another's and holds a comma is the longer one: board, one heater pole", () => {
  const holds = parse("control is board, one heater pole");
  expect(slotTestHolds(holds, choice("board, one heater pole", "one"))).toBe(true);
  expect(slotTestHolds(holds, choice("board", "one"))).toBe(false);
});

test("and binds tighter than or: 5 of the 6 choices hold", () => {
  const holds = parse("stages is two and control is timer or control is not timer");
  const all = ["timer", "board", "board, one heater pole"].flatMap((c) => ["one", "two"].map((s) => choice(c, s)));
  expect(all.filter((one) => slotTestHolds(holds, one))).toHaveLength(5);
});

test("a slot that is not there is not any of its variants", () => {
  expect(slotTestHolds(parse("control is not timer"), new Map())).toBe(true);
  expect(slotTestHolds(parse("control is timer"), new Map())).toBe(false);
});

test.each([
  ["controll is timer", "Did you mean control?"],
  ["control is tmer", "Did you mean timer?"],
])("%s is refused with the near name", (text, hint) => {
  const read = parseSlotTest(text, slots, { file: "sheet.yaml", line: 7, at: ["slots"] });
  expect(read).toMatchObject({ ok: false, issues: [{ code: "sheet.slot-test", line: 7, hint }] });
});

test.each(["control", "control is timer because", "is", "", "control is timer and"])("%j is no condition", (text) => {
  expect(parseSlotTest(text, slots, { at: [] }).ok).toBe(false);
});
