import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseAmount, type Want } from "./amount.ts";
import { formatAmount, formatCode } from "./format.ts";
import type { Rated } from "./rated.ts";
import type { UnitCode } from "./unit.ts";
import { units } from "./unit-table.ts";

const seed = 20261125;

function amount(text: string, want: Want = {}): Rated {
  const read = parseAmount(text, want);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.issues)}`);
  return read.value;
}

function issueOf(text: string, want: Want = {}) {
  const read = parseAmount(text, want);
  if (read.ok) throw new Error(`${text} was read as ${read.value.nominal}`);
  return read.issues[0];
}

describe("an amount in the code of resistor marking (IEC 60062: the letter stands for the decimal point)", () => {
  test.each([
    ["3k3", 3300],
    ["26R5", 26.5],
    ["0R1", 0.1],
    ["2M2", 2.2e6],
    ["4R7", 4.7],
    ["R47", 0.47],
    ["100R", 100],
    ["4L7", 0.0047],
    ["1M0", 1e6],
    ["10K5", 10500],
    ["1G5", 1.5e9],
  ])("%s is %d ohms", (text, ohms) => {
    expect(amount(text, { unit: "Ohm" })).toEqual({
      nominal: ohms,
      lo: ohms,
      hi: ohms,
      spread: "exact",
      unit: "Ohm",
    });
  });

  test.each([
    ["4n7", 4.7e-9],
    ["2µ2", 2.2e-6],
    ["p68", 0.68e-12],
    ["1F0", 1],
  ])("%s is %d farads", (text, farads) => {
    expect(amount(text, { unit: "F" }).nominal).toBe(farads);
  });
});

describe("an amount written plainly", () => {
  test.each<[string, UnitCode, number]>([
    ["26", "Ohm", 26],
    ["3.3 kΩ", "Ohm", 3300],
    ["3,3 kΩ", "Ohm", 3300],
    ["3.3kOhm", "Ohm", 3300],
    ["10 K", "Ohm", 10000],
    ["1e3", "Ohm", 1000],
    ["47 mΩ", "Ohm", 0.047],
    ["0.47 µF", "F", 0.47e-6],
    ["0.47 uF", "F", 0.47e-6],
    ["8µ", "F", 8e-6],
    ["10m", "Ohm", 0.01],
    ["230 V", "V", 230],
    ["20 mA", "A", 0.02],
    ["2.4 kW", "W", 2400],
    ["15 %", "1", 0.15],
    ["15 %", "%", 15],
    ["0.15", "%", 0.15],
    ["1 h", "min", 60],
    ["90 s", "min", 1.5],
    ["5 min", "s", 300],
    ["-18 °C", "Cel", -18],
    ["25 K", "K", 25],
    ["2 m", "mm", 2000],
    ["1.5 bar", "mbar", 1500],
    ["8 L/min", "L/min", 8],
    ["1200 rpm", "/min", 1200],
    ["−3 V", "V", -3],
  ])("%s asked in %s is %d", (text, unit, value) => {
    expect(amount(text, { unit }).nominal).toBe(value);
  });

  test("0.47 µF is the double nearest to 4.7e-7, not 0.47 times 1e-6", () => {
    expect(amount("0.47 µF").nominal).toBe(4.7e-7);
  });

  test("without a wanted unit the written one is kept, and per cent become a plain number: 8 % is 0.08 of 1", () => {
    expect(amount("2 W").unit).toBe("W");
    expect(amount("3k3").unit).toBeUndefined();
    expect(amount("8 %")).toMatchObject({ nominal: 0.08, unit: "1" });
  });
});

describe("tolerances, ranges and source marks", () => {
  test("3k3 ±10% reaches from 2970 to 3630", () => {
    expect(amount("3k3 ±10%", { unit: "Ohm" })).toMatchObject({
      nominal: 3300,
      lo: 2970,
      hi: 3630,
      spread: "tolerance",
    });
  });

  test.each([
    ["2400 W +5-10%", 2160, 2520],
    ["2400 W -10+5%", 2160, 2520],
    ["2400 W +5/-10 %", 2160, 2520],
    ["2400 W +-10%", 2160, 2640],
    ["2400 W +10%", 2400, 2640],
    ["2400 W ±50 W", 2350, 2450],
    ["2.4 kW ±0.1 kW", 2300, 2500],
    ["2400 ±50", 2350, 2450],
  ])("%s reaches from %d to %d", (text, lo, hi) => {
    const read = amount(text, { unit: "W" });
    expect(read.lo).toBeCloseTo(lo, 9);
    expect(read.hi).toBeCloseTo(hi, 9);
    expect(read.spread).toBe("tolerance");
  });

  test("±0 is exact", () => {
    expect(amount("100R ±0%").spread).toBe("exact");
  });

  test.each<[string, UnitCode, number, number]>([
    ["2k..15k", "Ohm", 2000, 15000],
    ["10m..30m", "Ohm", 0.01, 0.03],
    ["0R5..3R", "Ohm", 0.5, 3],
    [".25-.45", "1", 0.25, 0.45],
    ["5-40", "min", 5, 40],
    ["0.3..1", "W", 0.3, 1],
    ["15..30 mA", "A", 0.015, 0.03],
    ["-20..40", "Cel", -20, 40],
    ["1e-3..1e-2", "A", 0.001, 0.01],
  ])("%s is a range asked in %s from %d to %d", (text, unit, lo, hi) => {
    expect(amount(text, { unit })).toMatchObject({ lo, hi, spread: "range" });
  });

  test("the middle of a range is geometric, 5477 of 2k..15k, and plain where it holds zero, 10 of -20..40", () => {
    expect(amount("2k..15k").nominal).toBeCloseTo(Math.sqrt(2000 * 15000), 9);
    expect(amount("-20..40", { unit: "Cel" }).nominal).toBe(10);
  });

  test("a source mark, a sample size and a note stand behind the number", () => {
    expect(amount("20 mA @C").source).toEqual({ mark: "C" });
    expect(amount("167 @S n=6").source).toEqual({ mark: "S", n: 6 });
    expect(amount("3k3 ±10% @R IEC 60062, table 1").source).toEqual({ mark: "R", note: "IEC 60062, table 1" });
  });
});

describe("what is refused", () => {
  test.each<[string, Want, string]>([
    ["230 V", { unit: "Ohm" }, "quantity.wrong-unit"],
    ["25 %", { unit: "Ohm" }, "quantity.wrong-unit"],
    ["-5", { unit: "Ohm" }, "quantity.negative"],
    ["0", { unit: "Ohm", positive: true }, "quantity.not-positive"],
    ["1 ±150%", { unit: "Ohm" }, "quantity.negative"],
    ["NaN", { unit: "Ohm" }, "quantity.not-an-amount"],
    ["", {}, "quantity.not-an-amount"],
    ["heater", {}, "quantity.not-an-amount"],
    ["1e999", {}, "quantity.not-finite"],
    ["2400 Q", { unit: "W" }, "quantity.unknown-unit"],
    ["1,000", { unit: "Ohm" }, "quantity.comma"],
    ["2..15k", { unit: "Ohm" }, "quantity.range-prefix"],
    ["15k..2k", { unit: "Ohm" }, "quantity.range-order"],
    ["3k3 ±10", { unit: "Ohm" }, "quantity.tolerance"],
    ["3k3 ±", { unit: "Ohm" }, "quantity.not-an-amount"],
    ["3k3k", { unit: "Ohm" }, "quantity.not-an-amount"],
    ["1.2.3", {}, "quantity.not-an-amount"],
    ["20 mA @Z", {}, "quantity.source-mark"],
    ["OL", { unit: "Ohm" }, "quantity.open"],
    ["9".repeat(300), {}, "quantity.too-long"],
  ])("%s asked as %j is %s", (text, want, code) => {
    expect(issueOf(text, want)?.code).toBe(code);
  });

  test("the issue says where it stood, what was found and how to write it", () => {
    expect(issueOf("230 V", { unit: "Ohm", file: "a.yaml", line: 7, at: ["parts", "heater", "R"] })).toEqual({
      code: "quantity.wrong-unit",
      severity: "error",
      file: "a.yaml",
      line: 7,
      at: ["parts", "heater", "R"],
      found: '"230 V"',
      expected: "ohms, such as 26, 26R5, 3k3 or 3.3 kΩ",
      hint: "This is in volts.",
    });
  });

  test(`no text of any kind makes it throw (seed ${seed})`, () => {
    const pieces = fc.constantFrom(
      "1",
      "3k3",
      "..",
      "-",
      "+",
      "±",
      "%",
      " ",
      "@",
      "C",
      "Ω",
      "m",
      "k",
      "R",
      ".",
      ",",
      "e",
      "V",
      "min",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: "binary" }),
          fc.array(pieces).map((all) => all.join("")),
        ),
        (text) => {
          const read = parseAmount(text, { unit: "Ohm" });
          if (read.ok) expect(read.value.lo <= read.value.nominal && read.value.nominal <= read.value.hi).toBe(true);
          else expect(read.issues).toHaveLength(1);
        },
      ),
      { seed, numRuns: 3000 },
    );
  });
});

describe("printing", () => {
  test.each<[number, UnitCode, string]>([
    [26.5, "Ohm", "26.5 Ω"],
    [3300, "Ohm", "3.30 kΩ"],
    [Number.POSITIVE_INFINITY, "Ohm", "OL"],
    [0.047, "Ohm", "47 mΩ"],
    [999.6, "Ohm", "1 kΩ"],
    [8e-6, "F", "8 µF"],
    [0.47e-6, "F", "470 nF"],
    [230, "V", "230 V"],
    [0, "V", "0 V"],
    [-12.34, "Cel", "-12.3 °C"],
    [0.0005, "A", "500 µA"],
    [0.15, "1", "0.15"],
    [12.5, "%", "12.5 %"],
    [155e6, "Ohm", "155 MΩ"],
  ])("%d of %s is printed %s", (value, unit, text) => {
    expect(formatAmount(value, unit)).toBe(text);
  });

  test.each([
    [3300, "3k3"],
    [26.5, "26R5"],
    [0.1, "0R1"],
    [2.2e6, "2M2"],
    [100, "100R"],
  ])("%d ohms in marking code is %s", (ohms, text) => {
    expect(formatCode(ohms)).toBe(text);
  });

  test(`what is printed with fifteen figures reads back the same to 1e-14, in every unit (seed ${seed})`, () => {
    const unit = fc.constantFrom(...units.map(({ code }) => code));
    const size = fc.double({ min: -13, max: 13, noNaN: true });
    fc.assert(
      fc.property(unit, size, (code, exponent) => {
        const value = 10 ** exponent;
        const back = amount(formatAmount(value, code, 15), { unit: code }).nominal;
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-14 * value);
      }),
      { seed, numRuns: 1000 },
    );
  });

  test(`three figures lose at most half a unit of the third, in plain print and in marking code (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 10, noNaN: true }), (exponent) => {
        const ohms = 10 ** exponent;
        for (const text of [formatAmount(ohms, "Ohm"), formatCode(ohms)]) {
          expect(Math.abs(amount(text, { unit: "Ohm" }).nominal / ohms - 1)).toBeLessThanOrEqual(0.00501);
        }
      }),
      { seed, numRuns: 1000 },
    );
  });
});
