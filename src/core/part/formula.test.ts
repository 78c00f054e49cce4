import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Ask, nameOf, namesIn } from "./ask.ts";
import { compileExpression, type Resolver, splitAt } from "./compile.ts";
import type { Moment } from "./expression.ts";
import { parseExpression } from "./parse.ts";

const place = { at: ["x"] };
const noMoment = {} as Moment;

function value(text: string, names: Readonly<Record<string, number>> = {}): number | string {
  const parsed = parseExpression(text, place);
  if (!parsed.ok) return parsed.issues.map((issue) => `${issue.code}: ${issue.found}`).join("\n");
  const resolver: Resolver = {
    resolve: (ask) => {
      if (ask.for === "good") return () => 10 * ask.evaluate(noMoment);
      const found = names[nameOf(ask)];
      return found === undefined ? undefined : () => found;
    },
    known: () => Object.keys(names),
  };
  const compiled = compileExpression(parsed.value, resolver);
  return compiled.ok
    ? compiled.value(noMoment)
    : compiled.issues.map((issue) => [issue.code, issue.found, issue.hint].join(" ")).join("\n");
}

function asks(text: string): readonly Ask[] {
  const parsed = parseExpression(text, place);
  return parsed.ok ? namesIn(parsed.value) : [];
}

describe("a formula", () => {
  it.each([
    ["1 + 2 * 3", 7],
    ["(1 + 2) * 3", 9],
    ["10 - 4 - 3", 3],
    ["12 / 4 / 3", 1],
    ["-2 * -3", 6],
    ["2 - -3", 5],
    ["1R + 3k3", 3301],
    ["0R2", 0.2],
    ["2400 W / 8", 300],
    ["100 mA * 2", 0.2],
    ["1 kΩ", 1000],
    ["47 µF * 1e6", 47],
    ["8% + 2 %", 0.1],
    ["50 % of 30", 15],
    ["max(1 ; 5 ; 3) + min(4 ; 2) + abs(-3)", 10],
    ["exp(ln(7))", 7],
    ["sqrt(16)", 4],
    ["230 V * 230 V / 2000 W", 26.45],
    ["12/4/3", 1],
    ["2.5 L/min * 2", 5],
    ["else", 1],
  ])("%s = %d", (text, expected) => {
    expect(value(text)).toBeCloseTo(expected, 9);
  });

  it.each([
    ["1 < 2", 1],
    ["2 <= 2 and 2 ≥ 3", 0],
    ["1 = 1", 1],
    ["1 != 1 or 3 > 2", 1],
    ["not 1 > 2 and 0", 0],
    ["not (0 or 0)", 1],
    ["5 between 5 and 6 and 1", 1],
    ["7 between 5 and 6", 0],
    ["OL > 1 GΩ", 1],
    ["1 or 0 and 0", 1],
  ])("%s is %d", (text, expected) => {
    expect(value(text)).toBe(expected);
  });

  it("takes hyphens and dots into names, and a minus only with blanks", () => {
    expect(value("ntc-in.temp - 5", { "ntc-in.temp": 80 })).toBe(75);
    expect(value("a-b", { "a-b": 3 })).toBe(3);
    expect(value("a - b", { a: 5, b: 3 })).toBe(2);
    expect(value("a*a/b", { a: 6, b: 3 })).toBe(12);
  });

  it("asks for DC or AC alone, for volts between points and for pairs of currents", () => {
    expect(asks("coil.volts~ > 1 and volts= from 11 to X3.1 inside < 5 V")).toEqual([
      { for: "value", name: "coil.volts", current: "~" },
      { for: "between", from: "11", to: "X3.1 inside", current: "=" },
    ]);
    expect(asks("cross(main.amps ; aux.amps) > apart(l ; n)")).toEqual([
      { for: "cross", a: "main", b: "aux" },
      { for: "apart", a: "l", b: "n" },
    ]);
  });

  it("does not take the = of a comparison for DC: coil.volts=5 compares", () => {
    expect(value("coil.volts=5", { "coil.volts": 5 })).toBe(1);
  });

  it("reads phrases of several words after is, up to and, or, at and brackets", () => {
    expect(asks("condensate is pump to a tank and (control is not timer or is pulled)")).toEqual([
      { for: "state", subject: "condensate", phrase: "pump to a tank" },
      { for: "state", subject: "control", phrase: "timer" },
      { for: "state", phrase: "pulled" },
    ]);
    expect(asks('control is "board, one heater pole"')).toEqual([
      { for: "state", subject: "control", phrase: "board, one heater pole" },
    ]);
    expect(value("control is not timer", { "control is timer": 0 })).toBe(1);
  });

  it("reads of good alone as the healthy value of the other side: here 10 times itself", () => {
    expect(value("heat < 60 % of good", { heat: 3 })).toBe(1);
    expect(value("heat < 60 % of good heat", { heat: 3 })).toBe(1);
    expect(value("heat > good", { heat: 3 })).toBe(0);
  });

  it("reads hottest plug", () => {
    expect(value("hottest plug > 2 W", { "hottest plug": 3 })).toBe(1);
  });

  it.each([
    ["a,b", '"," in column 2'],
    ["a b", '"b" in column 3'],
    ["1 < 2 < 3", '"<" in column 7'],
    ["(1 + 2", "the end in column 7"],
    ["max(1)", '")" in column 6'],
    ["maxx(1 ; 2)", '"maxx" in column 1'],
    ["", "the end in column 1"],
    ["3 bananas", '"bananas" in column 3'],
    ["heat > 1 at secnds", '"secnds" in column 13'],
    ["1 and", "the end in column 6"],
    ["x is", "the end in column 5"],
    ["--1", '"-" in column 2'],
    ["2..15", '"." in column 2'],
  ])("refuses %s, pointing at %s", (text, found) => {
    expect(value(text)).toContain(`formula.syntax: ${found}`);
  });

  it("asks whether heatr was meant to be heater", () => {
    expect(value("heatr > 1", { heater: 1 })).toBe(
      'formula.unknown-name "heatr" in column 1 of "heatr > 1" Did you mean heater?',
    );
  });

  it("refuses at in a formula of one moment", () => {
    expect(value("1 at seconds")).toContain("formula.at");
  });

  it("refuses 100,000 brackets and 100,000 nots without a stack overflow", () => {
    expect(value("(".repeat(100_000))).toContain("formula.syntax");
    expect(value(`${"(".repeat(1500)}1${")".repeat(1500)}`)).toContain("formula.syntax");
    expect(value("not ".repeat(900))).toContain("formula.syntax");
    expect(value("- ".repeat(1500))).toContain("formula.syntax");
  });

  it("never throws on 3,000 random texts of its own words", () => {
    const words = [
      "a",
      "b.volts",
      "1",
      "2 W",
      "8%",
      "(",
      ")",
      "+",
      "-",
      "<",
      "and",
      "or",
      "not",
      "is",
      "at",
      "of",
      "good",
    ];
    const more = [
      "max(",
      ";",
      "between",
      "hottest",
      "volts from",
      "to",
      "end",
      "else",
      "cross(",
      "=",
      "~",
      '"x"',
      "OL",
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...words, ...more), { maxLength: 14 }), (pieces) => {
        const parsed = parseExpression(pieces.join(" "), place);
        if (parsed.ok) splitAt(parsed.value, "now", { resolve: () => () => 1 });
        return parsed.ok || parsed.issues.length === 1;
      }),
      { seed: 11, numRuns: 3000 },
    );
  });

  it("gives with constants folded what it gives with every number asked for (500 random sums)", () => {
    const operator = fc.constantFrom("+", "-", "*", "/", "<", "<=", ">", ">=", "==", "!=", "and", "or");
    const sums = fc.tuple(
      fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 5, maxLength: 5 }),
      fc.array(operator, { minLength: 4, maxLength: 4 }),
    );
    fc.assert(
      fc.property(sums, ([numbers, operators]) => {
        const names = Object.fromEntries(numbers.map((number, i) => [`n${i}`, number]));
        const join = (leaf: (i: number) => string): string =>
          operators.reduce((left, sign, i) => `(${left}) ${sign} ${leaf(i + 1)}`, leaf(0));
        const folded = value(join((i) => String(numbers[i])));
        const mixed = value(
          join((i) => (i % 2 ? `n${i}` : String(numbers[i]))),
          names,
        );
        return (
          Object.is(folded, mixed) &&
          Object.is(
            folded,
            value(
              join((i) => `n${i}`),
              names,
            ),
          )
        );
      }),
      { seed: 3, numRuns: 500 },
    );
  });
});

describe("splitAt", () => {
  const split = (text: string) => {
    const parsed = parseExpression(text, place);
    if (!parsed.ok) throw new Error(parsed.issues[0]?.found);
    return splitAt(parsed.value, "minutes", { resolve: () => 1 });
  };
  const when = expect.any(Function);

  it("takes a sign of two moments apart", () => {
    const test = split("heat > 0.5 * rated at seconds and heat < 0.6 * rated at end");
    expect(test.ok && test.value).toEqual({
      all: [
        { at: "seconds", when },
        { at: "end", when },
      ],
    });
  });

  it("keeps a condition of one moment whole", () => {
    expect(split("a > 1 and b < 2 or not a")).toMatchObject({ value: { at: "minutes", when } });
  });

  it("gives a bracket its moment, and lets an inner one win", () => {
    const test = split("not (a > 1 at now or b > 1) at end");
    expect(test.ok && test.value).toEqual({
      not: {
        any: [
          { at: "now", when },
          { at: "end", when },
        ],
      },
    });
  });

  it("refuses at inside arithmetic", () => {
    const test = split("1 + (heat at seconds)");
    expect(test.ok || test.issues[0]?.code).toBe("formula.at");
  });
});
