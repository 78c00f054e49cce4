import fc from "fast-check";
import { expect, test } from "vitest";
import { placeInOrder } from "./place-in-order.ts";

test.each([
  ["each in its own", [[0], [1], [2]], [0, 1, 2]],
  ["one that fits none is passed over", [[0], [], [2]], [0, undefined, 2]],
  ["two that run at once share", [[1, 2], [1], [1, 2]], [1, 1, 2]],
  ["the step that stands against all others is the one that is not placed", [[1], [2], [0], [3]], [1, 2, undefined, 3]],
  [
    "apart before early",
    [
      [0, 3],
      [0, 3],
    ],
    [0, 3],
  ],
])("%s", (_what, fitting, places) => expect(placeInOrder(fitting)).toEqual(places));

test("as many as any choice in order could place, by trying all of them", () => {
  const numbers = fc.uniqueArray(fc.nat(4), { maxLength: 3 }).map((some) => some.sort((a, b) => a - b));
  fc.assert(
    fc.property(fc.array(numbers, { maxLength: 5 }), (fitting) => {
      const most = (at: number, last: number): number => {
        if (at === fitting.length) return 0;
        const own = (fitting[at] ?? []).filter((number) => number >= last).map((number) => 1 + most(at + 1, number));
        return Math.max(most(at + 1, last), ...own);
      };
      const placed = placeInOrder(fitting).filter((place) => place !== undefined);
      expect(placed).toEqual([...placed].sort((a, b) => a - b));
      expect(placed).toHaveLength(most(0, 0));
    }),
    { numRuns: 500, seed: 1 },
  );
});
