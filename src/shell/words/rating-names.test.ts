import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import type { Rated } from "../../core/quantity/index.ts";
import { ratingNamed } from "./rating-names.ts";

test.each(["tumble-dryer", "washing-machine", "dishwasher"])("no figure of the %s stands without its unit", (sheet) => {
  const told = shippedMachine(sheet).parts.flatMap(({ id, joint, instance }) =>
    joint !== undefined
      ? []
      : [...instance.ratings].map(([name, rated]) => ({ id, rating: name, ...ratingNamed(name, rated) })),
  );
  expect(told.length).toBeGreaterThan(30);
  // A letter for its size and nothing behind it: "470 n", "1 M".
  expect(told.filter(({ value }) => /\d [nµmkM](?![\p{L}Ω])/u.test(value))).toEqual([]);
});

test("a filter's capacitor is told by where it sits, in farads; what nobody has named keeps its name", () => {
  const rated: Rated = { nominal: 4.7e-7, lo: 3.76e-7, hi: 5.64e-7, spread: "tolerance" };
  expect(ratingNamed("X", rated)).toEqual({ name: "capacitor across the lines", value: "470 nF (376 nF to 564 nF)" });
  const amps: Rated = { nominal: 16, lo: 16, hi: 16, spread: "exact", unit: "A" };
  expect(ratingNamed("rated-amps", amps)).toEqual({ name: "rated amps", value: "16 A" });
});
