import { expect, test } from "vitest";
import { type Expression, parseExpression } from "../part/index.ts";
import { holdTogether, neverHolds } from "./ranges.ts";

function parse(text: string): Expression {
  const read = parseExpression(text, { at: [] });
  if (!read.ok) throw new Error(read.issues[0]?.expected);
  return read.value;
}

test.each([
  "2 > 3",
  "temp > 80 and temp < 60",
  "temp > 80 and 70 > temp",
  "shut and not shut",
  "not (temp < 80 or temp > 60)",
  "heat > 100 W and (temp > 80 and temp < 60 or 1 > 2)",
  "x > 5 and x <= 5",
])("%s can never hold", (text) => {
  expect(neverHolds(parse(text))).toBe(true);
});

test.each([
  "temp > 60 and temp < 80",
  "shut or not shut",
  "x >= 5 and x <= 5",
  "a > b and b > a",
  "volts from X1 to N > 5 V",
])("%s may hold, as far as one can see", (text) => {
  expect(neverHolds(parse(text))).toBe(false);
});

const ratings = new Map([
  ["opens", 155],
  ["closes", 120],
  ["low", 60],
]);
const constantOf = (name: string): number | undefined => ratings.get(name);

test("a cut-out that opens above 155 and closes below 120 does not chatter; one that opens above 60 does", () => {
  expect(holdTogether(parse("feels >= opens"), parse("feels < closes"), constantOf)).toBe(false);
  expect(holdTogether(parse("feels >= low"), parse("feels < closes"), constantOf)).toBe(true);
});

test("conditions on different things are not said to hold together", () => {
  expect(holdTogether(parse("a > 1"), parse("b > 1"))).toBe(false);
});
