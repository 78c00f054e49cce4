import { expect, test } from "vitest";
import type { OutcomeTable } from "../suspect/index.ts";
import { addsTo, nothingTold, told } from "./adds-to.ts";
import type { Board } from "./ground.ts";

/** Four faults, each mended elsewhere; the first two are the likeliest. */
const board = {
  live: { weights: Float64Array.of(0.4, 0.3, 0.2, 0.1), hypotheses: Int32Array.of(0, 1, 2, 3) },
  ground: { targetOf: Int32Array.of(0, 1, 2, 3) },
} as unknown as Board;

/** A reading that comes out as foreseen in 98 of 100, else as any of the others. */
function readingOf(...outcome: readonly number[]): OutcomeTable {
  const count = Math.max(...outcome) + 1;
  const chance = Array.from({ length: count }, (_, o) =>
    Float64Array.from(outcome, (foreseen) => (foreseen === o ? 0.98 : 0.02 / (count - 1))),
  );
  return { outcomes: [], chance } as unknown as OutcomeTable;
}

test("a reading that only makes sure of another one against a slip in 2 of 100 adds nothing", () => {
  const first = readingOf(0, 0, 1, 1);
  expect(addsTo(board, nothingTold(board), first)).toBe(true);
  expect(addsTo(board, told(nothingTold(board), first), readingOf(1, 1, 0, 0))).toBe(false);
});

test("a third reading that follows from two others adds nothing, though it does to either", () => {
  const [a, b, c] = [readingOf(0, 0, 1, 1), readingOf(0, 1, 0, 1), readingOf(0, 1, 1, 0)];
  const nothing = nothingTold(board);
  expect(addsTo(board, told(nothing, a), c)).toBe(true);
  expect(addsTo(board, told(nothing, b), c)).toBe(true);
  expect(addsTo(board, told(told(nothing, a), b), c)).toBe(false);
});

test("a reading that parts two ways of failing that are mended at one place adds nothing", () => {
  const alike = {
    ...board,
    live: { weights: Float64Array.of(0.25, 0.25, 0.25, 0.25) },
    ground: { targetOf: Int32Array.of(0, 0, 1, 1) },
  } as unknown as Board;
  expect(addsTo(alike, nothingTold(alike), readingOf(0, 1, 0, 1))).toBe(false);
  expect(addsTo(alike, nothingTold(alike), readingOf(0, 0, 1, 1))).toBe(true);
});
