import fc from "fast-check";
import { expect, test } from "vitest";
import type { Observation } from "../../src/core/sign/index.ts";
import { dead, meter, opened } from "../machines/dryer-in-question.ts";

// Laws of evidence, on the dryer with pairs of faults in play and readings that need not make sense.

const seed = 17;

const shown = fc.oneof(
  fc.constant({ kind: "over limit" as const }),
  fc
    .double({ min: -1, max: 5, noNaN: true })
    .map((power) => ({ kind: "value" as const, value: Number((10 ** power).toPrecision(3)) })),
);
/** Readings of different places: the same place twice is one reading that overrules another. */
const readings = (least: number, most: number) =>
  fc
    .tuple(
      fc.shuffledSubarray([...dead.keys()], { minLength: least, maxLength: most }),
      fc.array(shown, { minLength: most, maxLength: most }),
    )
    .map(([places, displays]) =>
      places.map(
        (place, n): Observation => ({
          kind: "reading",
          probe: dead[place],
          meter,
          leads: "nulled",
          shown: displays[n],
        }),
      ),
    );
const told = fc
  .subarray([
    { sign: "heat", answer: "cold" },
    { sign: "drum turns", answer: "yes" },
  ])
  .map((signs) => signs.map((sign): Observation => ({ kind: "sign", witness: "told", ...sign })));

const total = (logs: Float64Array): number => logs.reduce((sum, log) => sum + Math.exp(log), 0);

test(`odds sum to 1 within 1e-9 after up to 4 readings that need not make sense (40 cases, seed ${seed})`, () => {
  fc.assert(
    fc.property(told, readings(0, 4), (signs, seen) => {
      expect(Math.abs(total(opened.update([...signs, ...seen]).logPosterior) - 1)).toBeLessThan(1e-9);
    }),
    { seed, numRuns: 40 },
  );
});

test(`readings of 4 places and what was told move the odds alike in any order, to 1e-9 (30 cases, seed ${seed})`, () => {
  const orders = fc.tuple(told, readings(4, 4)).chain(([signs, seen]) => {
    const all = [...signs, ...seen];
    return fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length }));
  });
  fc.assert(
    fc.property(orders, ([one, other]) => {
      const [first, second] = [opened.update(one).logPosterior, opened.update(other).logPosterior];
      for (const [h, log] of first.entries()) expect(Math.abs(Math.exp(log) - Math.exp(second[h]))).toBeLessThan(1e-9);
    }),
    { seed, numRuns: 30 },
  );
});

test(`a reading never raises what foretells it worse than all others, and never lowers what foretells it best (40 cases, seed ${seed})`, () => {
  fc.assert(
    fc.property(told, readings(1, 3), (signs, [last, ...seen]) => {
      const before = opened.update([...signs, ...seen]).logPosterior;
      const after = opened.update([...signs, ...seen, last]).logPosterior;
      const chance = opened.logLikelihood(last);
      const least = chance.reduce((low, log) => Math.min(low, log));
      const most = chance.reduce((high, log) => Math.max(high, log));
      expect(most).toBeGreaterThanOrEqual(least);
      for (const [h, log] of chance.entries()) {
        if (log === least) expect(after[h]).toBeLessThanOrEqual(before[h] + 1e-9);
        if (log === most) expect(after[h]).toBeGreaterThanOrEqual(before[h] - 1e-9);
      }
    }),
    { seed, numRuns: 40 },
  );
});
