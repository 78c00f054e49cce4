import { expect, test } from "vitest";
import { cautionsFor, generalOf } from "./cautions.ts";

const lines = (all: ReturnType<typeof cautionsFor>): string[] => all.flatMap((one) => one.lines);

test("what kills stands first, and a general caution named by sheet, kind and step is told once", () => {
  const all = cautionsFor(
    ["isolate"],
    ["run-capacitor", "door springs snap back", "door springs snap back"],
    [],
    ["run"],
  );
  expect(all.map(({ code }) => code)).toEqual(["run-capacitor", "sheet", "isolate"]);
});

test("no step carries more than five lines, and what does not fit is named in the last one", () => {
  const all = cautionsFor(
    ["isolate", "edges", "no-bridging"],
    ["hot", "lint", "a bare coil is live over its whole length", "run-capacitor"],
    [{ do: "prove dead", minutes: 2 }],
    ["run", "filter"],
  );
  const told = lines(all);
  expect(told.length).toBeLessThanOrEqual(5);
  const whole = told.join(" ");
  for (const word of [
    "Discharge the capacitor",
    "bare coil",
    "plug pins",
    "lint",
    "hot",
    "gloves",
    "prove dead",
    "pocket",
    "bridged",
  ]) {
    expect(whole).toContain(word);
  }
});

test("belt and drum are spoken of only where the place has them", () => {
  expect(lines(cautionsFor(["isolate", "edges"], [], [], [])).join(" ")).not.toMatch(/[Bb]elt/);
  expect(lines(cautionsFor(["isolate", "edges"], ["belt"], [], [])).join(" ")).toMatch(/Belt/);
});

test("only what holds at every step may be acknowledged once a job: never leads on live parts, a charge, or the sheet's own words", () => {
  const codes = (all: ReturnType<typeof cautionsFor>) => generalOf(all).map(({ code }) => code);
  expect(codes(cautionsFor(["prove-dead", "edges"], ["door springs snap back", "run-capacitor"], [], ["run"]))).toEqual(
    ["prove-dead", "edges"],
  );
  expect(codes(cautionsFor(["clipped", "prove-dead", "edges"], [], [], []))).toEqual(["edges"]);
  const crowded = cautionsFor(["isolate", "edges", "belt", "moving"], ["hot", "lint", "water"], [], ["bus"]);
  expect(crowded.at(-1)?.code).toBe("also");
  expect(codes(crowded)).not.toContain("also");
});
