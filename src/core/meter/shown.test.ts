import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatDisplayed, formatShown } from "./format-shown.ts";
import type { Meter, Quantity, Shown } from "./meter.ts";
import { parseShown, parseShownBatch } from "./shown.ts";

const seed = 20261125;

function shown(text: string, quantity: Quantity = "ohms"): Shown {
  const read = parseShown(text, quantity);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.issues)}`);
  return read.value;
}

function codes(text: string, quantity: Quantity): readonly string[] {
  const read = parseShown(text, quantity);
  return read.ok ? [] : read.issues.map((issue) => issue.code);
}

describe("what a person writes down", () => {
  test.each<[string, Quantity, number, number]>([
    ["26.4", "ohms", 26.4, 0.1],
    ["26,4", "ohms", 26.4, 0.1],
    ["26", "ohms", 26, 1],
    ["3k8", "ohms", 3800, 100],
    ["3.82 kΩ", "ohms", 3820, 10],
    ["R47", "ohms", 0.47, 0.01],
    ["155M", "insulation ohms", 155e6, 1e6],
    ["1250 W", "watts", 1250, 1],
    ["2.4 kW", "watts", 2400, 100],
    ["229.6 V", "volts", 229.6, 0.1],
    ["0.4 mA", "leakage amps", 0.0004, 0.0001],
    ["7.9µ", "farads", 7.9e-6, 1e-7],
    ["34", "kelvin", 34, 1],
    ["-18.5", "degrees", -18.5, 0.1],
  ])("%s of %s is the value %d, written to %d", (text, quantity, value, step) => {
    expect(shown(text, quantity)).toEqual({ kind: "value", value, step });
  });

  test.each<[string, Shown]>([
    ["OL", { kind: "over limit" }],
    ["ol", { kind: "over limit" }],
    ["O.L", { kind: "over limit" }],
    ["0L", { kind: "over limit" }],
    ["> 2M", { kind: "over limit", top: 2e6 }],
    ["beeps", { kind: "word", word: "beeps" }],
    ["No  Beep", { kind: "word", word: "no beep" }],
    ["continuity", { kind: "word", word: "has continuity" }],
    ["ok", { kind: "word", word: "good" }],
    ["19 of 20", { kind: "count", good: 19, of: 20 }],
    ["19/20", { kind: "count", good: 19, of: 20 }],
  ])("%s", (text, wanted) => {
    expect(shown(text)).toEqual(wanted);
  });

  test("26 ol 3k8 are three readings; units, words and counts keep their blanks", () => {
    const read = parseShownBatch("26 ol 3k8, no beep; 3.3 kΩ 19 of 20 > 2M 47 M", "ohms");
    expect(read.ok && read.value.map((reading) => ("value" in reading ? reading.value : reading.kind))).toEqual([
      26,
      "over limit",
      3800,
      "word",
      3300,
      "count",
      "over limit",
      47e6,
    ]);
  });

  test("all that is wrong in a row is said at once, each with its place in the row", () => {
    const read = parseShownBatch("26 230V bla 3k8 -4", "ohms", { file: "job.yaml", line: 4, at: ["shows"] });
    expect(read.ok ? [] : read.issues.map(({ code, at, line }) => [code, at.at(-1), line])).toEqual([
      ["reading.wrong-unit", 1, 4],
      ["reading.not-an-amount", 2, 4],
      ["reading.negative", 4, 4],
    ]);
  });
});

describe("printing what was shown", () => {
  test.each<[string, Quantity, string]>([
    ["26.4", "ohms", "26.4 Ω"],
    ["3k8", "ohms", "3.8 kΩ"],
    ["3.812k", "ohms", "3.812 kΩ"],
    ["1250 W", "watts", "1.250 kW"],
    ["155M", "insulation ohms", "155 MΩ"],
    ["ol", "ohms", "OL"],
    ["> 2M", "ohms", "OL (over 2 MΩ)"],
    ["buzzes", "ohms", "beeps"],
    ["19/20", "ohms", "19 of 20"],
    ["34", "kelvin", "34 K"],
  ])("%s of %s is printed %s", (text, quantity, printed) => {
    expect(formatShown(shown(text, quantity), quantity)).toBe(printed);
  });

  test("a true 3812.34 Ω is 3.812 kΩ on a display of 1 Ω steps, 26.4321 Ω is 26.4 Ω on one of 0.1, 1 GΩ is OL", () => {
    const meter: Meter = {
      id: "test",
      says: "test",
      ranges: [
        { quantity: "ohms", top: 600, resolution: 0.1, shareOfReading: 0.01, counts: 3 },
        { quantity: "ohms", top: 6000, resolution: 1, shareOfReading: 0.01, counts: 3 },
      ],
      inputOhms: 10e6,
      leadOhms: { lo: 0, hi: 0 },
      nulledOhms: 0,
      source: "I",
    };
    expect(formatDisplayed(meter, "ohms", 3812.34)).toBe("3.812 kΩ");
    expect(formatDisplayed(meter, "ohms", 26.4321)).toBe("26.4 Ω");
    expect(formatDisplayed(meter, "ohms", 0.04)).toBe("0 Ω");
    expect(formatDisplayed(meter, "ohms", 1e9)).toBe("OL");
  });

  test(`what is printed reads back as the same reading (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: -2, max: 5 }), (digits, exponent) => {
        const ohms = Number(`${digits}e${exponent}`);
        const step = 10 ** exponent;
        const back = shown(formatShown({ kind: "value", value: ohms, step }, "ohms"));
        expect(back.kind === "value" && Math.abs(back.value / ohms - 1)).toBeLessThan(1e-12);
      }),
      { seed },
    );
  });
});

describe("what is asked again", () => {
  test.each<[string, Quantity, string]>([
    ["230 V", "ohms", "reading.wrong-unit"],
    ["-4", "ohms", "reading.negative"],
    ["NaN", "ohms", "reading.not-an-amount"],
    ["20..30", "ohms", "reading.one-value"],
    ["19 of 3", "ohms", "reading.count"],
    ["0 of 0", "ohms", "reading.count"],
    ["155", "insulation ohms", "reading.prefix"],
    ["8", "farads", "reading.prefix"],
    ["0.4", "leakage amps", "reading.prefix"],
  ])("%s for %s is %s", (text, quantity, code) => {
    expect(codes(text, quantity)).toEqual([code]);
  });

  test("a bare 155 on an insulation tester is not 155 Ω: the hint is to write 155M", () => {
    const read = parseShown("155", "insulation ohms");
    expect(read.ok ? undefined : read.issues[0]?.hint).toBe("Write 155M if that is meant.");
  });

  test(`no text makes it throw (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        expect(typeof parseShown(text, "ohms").ok).toBe("boolean");
        expect(typeof parseShownBatch(text, "ohms").ok).toBe("boolean");
      }),
      { seed, numRuns: 1000 },
    );
  });
});
