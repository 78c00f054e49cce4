import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { netOfGross, ROUNDINGS, type Summed, type Taxed, taxOn, totalsOf, vatRate } from "./index.ts";

const taxed = (net: number, percent: number): Taxed => ({ net, vat: vatRate("S", percent) });

describe("published sums", () => {
  // EN 16931 validation artefacts, UBL example 2 (TC 434): 1460.50 at 25 % is 365.125, printed 365.13.
  test("example 2 comes to 365.28 of tax and 801.78 to pay", () => {
    const exempt = vatRate("E", 0, "Exempt New Means of Transport");
    const totals = totalsOf({
      lines: [taxed(127300, 25), taxed(18750, 25), taxed(-396, 15), taxed(496, 15), { net: -2500, vat: exempt }],
      allowances: [taxed(10000, 25)],
      charges: [taxed(10000, 25)],
      paid: 100000,
      rounding: "half up",
    });
    expect(totals).toMatchObject({ lines: 143650, allowances: 10000, charges: 10000, net: 143650, tax: 36528 });
    expect(totals).toMatchObject({ gross: 180178, paid: 100000, rounded: 0, due: 80178 });
    expect(totals.groups.map(({ taxable, tax }) => [taxable, tax])).toEqual([
      [146050, 36513],
      [100, 15],
      [-2500, 0],
    ]);
  });

  // The same artefacts, UBL example 5: half of it paid beforehand.
  test("example 5 leaves 2337.50 to pay", () => {
    const totals = totalsOf({
      lines: [taxed(100000, 25), taxed(50000, 25), taxed(250000, 12)],
      allowances: [taxed(15000, 25)],
      charges: [taxed(15000, 25)],
      paid: 233750,
      rounding: "half up",
    });
    expect([totals.tax, totals.gross, totals.due]).toEqual([67500, 467500, 233750]);
  });
});

describe("our own rounding, to the penny", () => {
  test.each([
    [250, 10, "half up", 25],
    [205, 10, "half up", 21],
    [205, 10, "half even", 20],
    [215, 10, "half even", 22],
    [-205, 10, "half up", -21],
    [-205, 10, "half even", -20],
    [3361, 19, "half up", 639],
    [1, 19, "half up", 0],
  ] as const)("%i at %i %% rounded %s is %i", (net, percent, rounding, tax) => {
    expect(taxOn(net, vatRate("S", percent), rounding)).toBe(tax);
  });

  test("33.33 three times at 20 % is taxed as 99.99: 20.00, not three times 6.67", () => {
    const totals = totalsOf({ lines: [taxed(3333, 20), taxed(3333, 20), taxed(3333, 20)], rounding: "half up" });
    expect([totals.tax, totals.gross]).toEqual([2000, 11999]);
  });

  test("where small coins are gone, 119.98 is paid as 120.00 and 119.97 as 119.95", () => {
    const paidIn5 = (net: number) => totalsOf({ lines: [taxed(net, 10)], step: 5, rounding: "half up" });
    expect(paidIn5(10907)).toMatchObject({ gross: 11998, rounded: 2, due: 12000 });
    expect(paidIn5(10906)).toMatchObject({ gross: 11997, rounded: -2, due: 11995 });
  });
});

const rates = [vatRate("S", 19), vatRate("S", 7), vatRate("S", 20), vatRate("S", 7.7), vatRate("Z")];
const amount = fc.integer({ min: -2_000_000, max: 2_000_000 });
const line = fc.record({ net: amount, vat: fc.constantFrom(...rates) });
const positive = fc.record({ net: fc.integer({ min: 0, max: 50_000 }), vat: fc.constantFrom(...rates) });
const bill: fc.Arbitrary<Summed> = fc.record({
  lines: fc.array(line, { minLength: 1, maxLength: 12 }),
  allowances: fc.array(positive, { maxLength: 3 }),
  charges: fc.array(positive, { maxLength: 3 }),
  paid: fc.integer({ min: 0, max: 3_000_000 }),
  step: fc.constantFrom(1, 5, 10, 100),
  rounding: fc.constantFrom(...ROUNDINGS),
});

describe("laws of a bill, in every rounding", () => {
  test("BR-CO-10 to BR-CO-17 hold", () => {
    fc.assert(
      fc.property(bill, (summed) => {
        const of = totalsOf(summed);
        const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);
        expect(of.lines).toBe(sum(summed.lines.map(({ net }) => net)));
        expect(of.allowances).toBe(sum((summed.allowances ?? []).map(({ net }) => net)));
        expect(of.charges).toBe(sum((summed.charges ?? []).map(({ net }) => net)));
        expect(of.net).toBe(of.lines - of.allowances + of.charges);
        expect(of.net).toBe(sum(of.groups.map(({ taxable }) => taxable)));
        expect(of.tax).toBe(sum(of.groups.map(({ tax }) => tax)));
        expect(of.gross).toBe(of.net + of.tax);
        expect(of.due).toBe(of.gross - of.paid + of.rounded);
        for (const { vat, taxable, tax } of of.groups) {
          expect(Math.abs(10_000 * tax - taxable * vat.hundredths)).toBeLessThanOrEqual(5_000);
        }
      }),
    );
  });

  test("what is due is a whole number of steps, at most half a step away", () => {
    fc.assert(
      fc.property(bill, (summed) => {
        const { due, rounded } = totalsOf(summed);
        const step = summed.step ?? 1;
        expect(Math.abs(due % step)).toBe(0);
        expect(2 * Math.abs(rounded)).toBeLessThanOrEqual(step);
      }),
    );
  });

  test("a credit note of the same lines takes back exactly what the bill asked", () => {
    fc.assert(
      fc.property(bill, ({ lines, rounding }) => {
        const of = totalsOf({ lines, rounding });
        const back = totalsOf({ lines: lines.map(({ net, vat }) => ({ net: -net, vat })), rounding });
        expect([back.net + of.net, back.tax + of.tax, back.due + of.due]).toEqual([0, 0, 0]);
      }),
    );
  });
});

describe("a price agreed with tax included", () => {
  test("180.00 at 19 % is 151.26 and 28.74", () => {
    const { lines, difference } = netOfGross([{ gross: 18000, vat: vatRate("S", 19) }], "half up");
    expect([lines[0]?.net, difference]).toEqual([15126, 0]);
  });

  test("0.03 at 20 % is no sum of pence and its tax: 0.02 and 0.01 in the rounding", () => {
    const { lines, difference } = netOfGross([{ gross: 3, vat: vatRate("S", 20) }], "half up");
    expect([lines[0]?.net, difference]).toEqual([3, -1]);
  });

  const agreed = fc.array(
    fc.record({ gross: fc.integer({ min: -50_000, max: 500_000 }), vat: fc.constantFrom(...rates) }),
    { minLength: 1, maxLength: 10 },
  );
  test("is what is asked for, to the penny, whatever the lines and the rounding", () => {
    fc.assert(
      fc.property(agreed, fc.constantFrom(...ROUNDINGS), (prices, rounding) => {
        const { lines, difference } = netOfGross(prices, rounding);
        const { due } = totalsOf({ lines, difference, rounding });
        expect(due).toBe(prices.reduce((sum, { gross }) => sum + gross, 0));
        expect(Math.abs(difference)).toBeLessThanOrEqual(new Set(prices.map(({ vat }) => vat)).size);
      }),
    );
  });
});

test("what is outside the scope of the tax stands alone on a bill", () => {
  const outside = vatRate("O", 0, "small business, not registered");
  expect(totalsOf({ lines: [{ net: 5000, vat: outside }], rounding: "half up" })).toMatchObject({ tax: 0, due: 5000 });
  expect(() => totalsOf({ lines: [{ net: 1, vat: outside }, taxed(1, 19)], rounding: "half up" })).toThrow(RangeError);
});

test("a rate without its category, or a category without its reason, is no rate", () => {
  for (const [category, percent, reason] of [
    ["S", 0, undefined],
    ["Z", 19, undefined],
    ["E", 0, undefined],
    ["S", 19, "why"],
    ["S", 101, undefined],
    ["S", 19.001, undefined],
  ] as const) {
    expect(() => vatRate(category, percent, reason)).toThrow(RangeError);
  }
});
