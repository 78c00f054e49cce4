import fc from "fast-check";
import { expect, test } from "vitest";
import { Rational } from "../../../test/oracle/rational.ts";
import { add, divide, multiply, pi, subtract, toNumber, type Wide, wide } from "./wide.ts";
import { complexInvert, complexMultiply } from "./wide-complex.ts";
import { unitPhasor } from "./wide-phasor.ts";

const seed = 3;
const half = fc.double({ min: -1e12, max: 1e12, noNaN: true }).filter((x) => Math.abs(x) > 1e-12);
const number = fc.tuple(half, half).map(([hi, lo]) => add(wide(hi), wide(lo * 2 ** -60)));
const exact = ({ hi, lo }: Wide): Rational => Rational.from(hi).plus(Rational.from(lo));
const error = (found: Wide, truth: Rational): number =>
  truth.isZero ? Math.abs(found.hi) : Math.abs(exact(found).minus(truth).over(truth).toNumber());

test(`products and quotients are right to 30 digits against exact fractions (500 pairs, seed ${seed})`, () => {
  fc.assert(
    fc.property(number, number, (x, y) => {
      expect(error(multiply(x, y), exact(x).times(exact(y)))).toBeLessThan(1e-30);
      expect(error(divide(x, y), exact(x).over(exact(y)))).toBeLessThan(1e-30);
    }),
    { seed, numRuns: 500 },
  );
});

test(`sums and differences are right to 30 digits of the larger term (500 pairs, seed ${seed})`, () => {
  fc.assert(
    fc.property(number, number, (x, y) => {
      const larger = Math.max(Math.abs(x.hi), Math.abs(y.hi));
      for (const [found, truth] of [
        [add(x, y), exact(x).plus(exact(y))],
        [subtract(x, y), exact(x).minus(exact(y))],
      ] as const)
        expect(Math.abs(exact(found).minus(truth).toNumber())).toBeLessThan(1e-30 * larger);
    }),
    { seed, numRuns: 500 },
  );
});

test("1 - 1e-20 - 1 keeps the 1e-20 that a double loses", () => {
  expect(toNumber(subtract(add(wide(1), wide(-1e-20)), wide(1)))).toBe(-1e-20);
});

test("a complex number times its inverse is 1 to 30 digits, a pure one staying pure", () => {
  const z = { re: wide(3e-7), im: wide(-4e5) };
  const product = complexMultiply(z, complexInvert(z));
  expect(Math.abs(toNumber(subtract(product.re, wide(1))))).toBeLessThan(1e-30);
  expect(Math.abs(toNumber(product.im))).toBeLessThan(1e-30);
  expect(toNumber(complexInvert({ re: wide(0), im: wide(8) }).re)).toBe(0);
});

test("phasors: 90° steps are exact, 30° has sine 1/2 and 45° equal parts to 31 digits, three phases sum to nothing", () => {
  expect([0, 90, 180, 270, -90].map((degrees) => Object.values(unitPhasor(wide(degrees))).map(toNumber))).toEqual(
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
      [0, -1],
    ].map((pair) => pair.map((x) => expect.closeTo(x, 300))),
  );
  expect(Math.abs(toNumber(subtract(unitPhasor(wide(30)).im, wide(0.5))))).toBeLessThan(1e-31);
  const { re, im } = unitPhasor(wide(45));
  expect(Math.abs(toNumber(subtract(re, im)))).toBeLessThan(1e-31);
  const three = [0, 120, 240].map((degrees) => unitPhasor(wide(degrees)));
  expect(Math.abs(toNumber(three.map((phasor) => phasor.re).reduce(add)))).toBeLessThan(1e-31);
  expect(Math.abs(toNumber(three.map((phasor) => phasor.im).reduce(add)))).toBeLessThan(1e-31);
});

test("π to 32 digits: the sine of its high half is its low half", () => {
  expect(Math.sin(pi.hi)).toBeCloseTo(pi.lo, 30);
});
