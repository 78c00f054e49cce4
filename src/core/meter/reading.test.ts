import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logSumExp, sample, seeded } from "../chance/index.ts";
import { subtract, uncertainty } from "../quantity/index.ts";
import { readingEstimate } from "./estimate.ts";
import { logChanceShown, prepareReading, type ReadingSetUp, type SingleShown } from "./likelihood.ts";
import type { Meter, MeterRange, Quantity, Word } from "./meter.ts";
import { displayed, limitOf, pickRange, shownBy, standardUncertaintyOf, topOf } from "./range.ts";
import { readMeter } from "./read-meter.ts";
import type { Term } from "./term.ts";
import { beepChance } from "./words.ts";

const seed = 20261125;

function meterOf(id: string): Meter {
  const read = readMeter(readFileSync(`data/meters/${id}.yaml`, "utf8"), `${id}.yaml`);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

const handheld = meterOf("handheld-6000");
const basic = meterOf("basic-2000");
const plugIn = meterOf("plug-in");

const range = (quantity: Quantity, top: number, resolution: number, shareOfReading: number, counts: number) =>
  ({ quantity, top, resolution, shareOfReading, counts }) satisfies MeterRange;

const value = (mean: number, sigma: number): Term => ({ kind: "value", mean, sigma });
const open: Term = { kind: "open" };
const ohmsBy = (meter: Meter): ReadingSetUp => ({ meter, quantity: "ohms", leads: "nulled" });

describe("accuracy as makers state it", () => {
  test("±(0.7 % + 2 counts of 0.1 V) at 120 V is ±1.04 V, u 0.600 V; with counts of 0.01 V ±0.86, u 0.497", () => {
    // Source: worked answer in a trade forum on meter accuracy (118.96 to 121.04 V accepted); u by GUM 4.3.7
    expect(limitOf(range("volts", 200, 0.1, 0.007, 2), 120)).toBeCloseTo(1.04, 12);
    expect(standardUncertaintyOf(range("volts", 200, 0.1, 0.007, 2), 120)).toBeCloseTo(0.6, 3);
    expect(standardUncertaintyOf(range("volts", 200, 0.01, 0.007, 2), 120)).toBeCloseTo(0.497, 3);
  });

  test("26.4 Ω on ±(0.8 % + 2) of 0.1 Ω is ±0.411, u 0.237; on ±(1 % + 3) ±0.564, u 0.326", () => {
    // Source: ohms ranges of two handbooks (200 Ω range of 2000 counts; 400 Ω range); the arithmetic worked out
    expect(limitOf(range("ohms", 200, 0.1, 0.008, 2), 26.4)).toBeCloseTo(0.4112, 4);
    expect(standardUncertaintyOf(range("ohms", 200, 0.1, 0.008, 2), 26.4)).toBeCloseTo(0.237, 3);
    expect(standardUncertaintyOf(range("ohms", 400, 0.1, 0.01, 3), 26.4)).toBeCloseTo(0.326, 3);
    // and these are the figures of the profiles that come with the tool
    expect(limitOf(pickRange(basic, "ohms", 26.4) as MeterRange, 26.4)).toBeCloseTo(0.4112, 4);
    expect(limitOf(pickRange(handheld, "ohms", 26.4) as MeterRange, 26.4)).toBeCloseTo(0.564, 4);
  });

  test("a rectangular limit of 0.01 read to the last digit has u = r/√12 = 0.0028868", () => {
    // Source: GUM 4.3.7 and F.2.2.1
    expect(0.01 / Math.sqrt(12)).toBeCloseTo(0.0028868, 7);
    expect(standardUncertaintyOf(range("volts", 2, 0.01, 0, 0.5), 1)).toBeCloseTo(0.0028868, 7);
  });

  test("the usual 10 MΩ input loads 1 kΩ to 0.99990, 100 kΩ to 0.99010, 1 MΩ to 0.90909 of its voltage", () => {
    expect(handheld.inputOhms).toBe(10e6);
    const loaded = (source: number): number => handheld.inputOhms / (handheld.inputOhms + source);
    expect(loaded(1e3)).toBeCloseTo(0.9999, 5);
    expect(loaded(1e5)).toBeCloseTo(0.9901, 5);
    expect(loaded(1e6)).toBeCloseTo(0.90909, 5);
  });

  test("230 V through 100 pF shows 68.9 V on 10 MΩ and 0.022 V on the low-impedance mode of 3 kΩ", () => {
    const reactance = 1 / (2 * Math.PI * 50 * 100e-12);
    const phantom = (ohms: number): number => (230 * ohms) / Math.hypot(ohms, reactance);
    expect(phantom(handheld.inputOhms)).toBeCloseTo(68.9, 1);
    expect(phantom(handheld.lowImpedanceOhms ?? Number.NaN)).toBeCloseTo(0.022, 3);
    expect(handheld.lowImpedanceOhms).toBe(meterOf("low-impedance").inputOhms);
  });
});

describe("ranges and the display", () => {
  test("a 6000-count meter shows 26.4321 Ω as 26.4, 3812.3 as 3810 or 3812, and OL from 40 MΩ on", () => {
    expect(shownBy(handheld, "ohms", 26.4321)).toEqual({ kind: "value", value: 26.4 });
    expect(shownBy(handheld, "ohms", 3812.3)).toEqual({ kind: "value", value: 3812 });
    expect(shownBy(basic, "ohms", 3812.3)).toEqual({ kind: "value", value: 3810 });
    expect(shownBy(handheld, "ohms", 41e6)).toEqual({ kind: "over limit" });
    expect(topOf(handheld, "ohms")).toBe(40e6);
    expect(topOf(handheld, "litres per minute")).toBe(Number.POSITIVE_INFINITY);
  });

  test("a plug-in meter shows 0 below its floor of 2 W, and 2.4 above it", () => {
    expect(shownBy(plugIn, "watts", 1.9)).toEqual({ kind: "value", value: 0 });
    expect(shownBy(plugIn, "watts", 2.43)).toEqual({ kind: "value", value: 2.4 });
  });

  test(`what is displayed lies within half a last digit of the value, and shows as itself (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 39e6, noNaN: true }), (ohms) => {
        const picked = pickRange(handheld, "ohms", ohms) as MeterRange;
        const once = displayed(picked, ohms);
        expect(Math.abs(once - ohms)).toBeLessThanOrEqual(0.5000001 * picked.resolution);
        expect(displayed(picked, once)).toBe(once);
      }),
      { seed },
    );
  });
});

describe("a reading as an estimate", () => {
  test("0.7 Ω with leads not nulled (0.1 to 0.5 Ω) is 0.4 Ω with u 0.21, of which leads 0.12", () => {
    const reading = readingEstimate(handheld, "ohms", 0.7, "not nulled");
    if (reading === undefined) throw new Error("in range");
    expect(reading.value).toBeCloseTo(0.4, 12);
    expect(reading.parts.get("handheld-6000/leads")).toBeCloseTo(
      Math.hypot(0.4 / Math.sqrt(12), 0.05 / Math.sqrt(3)),
      12,
    );
    expect(uncertainty(reading)).toBeCloseTo(0.21, 2);
  });

  test("two readings by one meter share gain and leads: each is known to 0.35 Ω, their difference to 0.41 and not 0.49", () => {
    const one = readingEstimate(handheld, "ohms", 26.4, "not nulled", "1");
    const two = readingEstimate(handheld, "ohms", 26.1, "not nulled", "2");
    if (one === undefined || two === undefined) throw new Error("in range");
    const leads = Math.hypot(0.4 / Math.sqrt(12), 0.05 / Math.sqrt(3));
    expect(uncertainty(one)).toBeCloseTo(Math.hypot(0.564 / Math.sqrt(3), leads), 9);
    const own = (ohms: number): number => Math.sqrt((0.01 * ohms + 0.3) ** 2 - (0.01 * ohms) ** 2) / Math.sqrt(3);
    const gain = (0.01 * 0.3) / Math.sqrt(3);
    expect(uncertainty(subtract(one, two))).toBeCloseTo(Math.hypot(own(26.4), own(26.1), gain), 9);
    expect(uncertainty(subtract(one, two))).toBeCloseTo(0.41, 2);
    expect(Math.hypot(uncertainty(one), uncertainty(two))).toBeCloseTo(0.49, 2);
  });

  test("a value that no range shows has no estimate", () => {
    expect(readingEstimate(basic, "ohms", 5e6)).toBeUndefined();
    expect(readingEstimate(basic, "watts", 5)).toBeUndefined();
  });
});

describe("chance of what was shown", () => {
  test(`over everything a display may show the chances sum to 1: ${"26.5 ± 0.5 Ω, digits of 0.1 Ω"}`, () => {
    const logs: number[] = [];
    for (let shownOhms = 20; shownOhms < 33; shownOhms += 0.1) {
      const shown = { kind: "value", value: Number(shownOhms.toFixed(1)) } as const;
      logs.push(logChanceShown(shown, value(26.5, 0.5), ohmsBy(handheld)));
    }
    // the meter's error is taken at the reading, which moves the sum by some parts in a thousand
    expect(Math.exp(logSumExp(logs))).toBeCloseTo(1, 2);
  });

  test(`readings drawn through the meter fall where the chances say (seed ${seed})`, () => {
    const random = seeded(seed);
    const picked = pickRange(handheld, "ohms", 26.5) as MeterRange;
    const drawn = sample(() => {
      const ohms = 26.5 + 0.4 * random.normal();
      return displayed(picked, ohms + (2 * random.uniform() - 1) * limitOf(picked, ohms));
    }, 200_000);
    for (const at of [25.9, 26.5, 27]) {
      const share = drawn.sorted.filter((x) => Math.abs(x - at) < 0.05).length / 200_000;
      const chance = Math.exp(logChanceShown({ kind: "value", value: at }, value(26.5, 0.4), ohmsBy(handheld)));
      // rectangular errors taken as normal: within a twelfth of each other where it matters
      expect(chance / share).toBeGreaterThan(0.92);
      expect(chance / share).toBeLessThan(1.08);
    }
  });

  test("leads not nulled move the expectation: 26.8 shown of 26.5 Ω is likelier with them, by more than if nulled", () => {
    const shown = { kind: "value", value: 26.8 } as const;
    const nulled = logChanceShown(shown, value(26.5, 0.05), ohmsBy(handheld));
    const notNulled = logChanceShown(shown, value(26.5, 0.05), { ...ohmsBy(handheld), leads: "not nulled" });
    const known = logChanceShown(shown, value(26.5, 0.05), { ...ohmsBy(handheld), leads: { ohms: 0.3 } });
    expect(notNulled).toBeGreaterThan(nulled);
    expect(known).toBeGreaterThan(notNulled);
  });

  test("OL is near certain for an open path or 1 GΩ, an even chance at the top of 40 MΩ, out of the question at 26 Ω", () => {
    const chance = prepareReading({ kind: "over limit" }, ohmsBy(handheld));
    expect(chance.ofOpen).toBeCloseTo(Math.log(0.98), 9);
    expect(chance.ofValue(1e9, 1e8)).toBeCloseTo(0, 9);
    expect(chance.ofValue(40e6, 0)).toBeCloseTo(Math.log(0.5), 2);
    expect(chance.ofValue(26, 1)).toBeLessThan(-1000);
    expect(chance.ofValue(Number.POSITIVE_INFINITY, 0)).toBe(chance.ofOpen);
  });

  test("OL on a 2 MΩ meter says nothing against 5 MΩ, which a 40 MΩ meter would have shown", () => {
    expect(logChanceShown({ kind: "over limit" }, value(5e6, 1e5), ohmsBy(basic))).toBeCloseTo(0, 9);
    expect(logChanceShown({ kind: "over limit" }, value(5e6, 1e5), ohmsBy(handheld))).toBeLessThan(-100);
    expect(logChanceShown({ kind: "over limit", top: 2e6 }, value(5e6, 1e5), ohmsBy(handheld))).toBeCloseTo(0, 9);
  });

  test("an open path shows a stray 2 MΩ now and then (fingers on the probes), never 26 Ω", () => {
    expect(logChanceShown({ kind: "value", value: 2e6 }, open, ohmsBy(handheld))).toBeGreaterThan(-20);
    expect(logChanceShown({ kind: "value", value: 26 }, open, ohmsBy(handheld))).toBe(-700);
  });

  test("where there is no path, volts, amperes and watts read nothing: 0.0 V near certain, 12 V out of the question", () => {
    const volts: ReadingSetUp = { meter: handheld, quantity: "volts", leads: "nulled" };
    expect(logChanceShown({ kind: "value", value: 0.001 }, open, volts)).toBeGreaterThan(-3);
    expect(logChanceShown({ kind: "value", value: 12 }, open, volts)).toBeLessThan(-100);
  });

  test("a plug-in meter that shows 0 W is as good as certain for 0.3 W, even at its floor of 2 W, impossible at 250 W", () => {
    const watts: ReadingSetUp = { meter: plugIn, quantity: "watts", leads: "nulled" };
    const chance = prepareReading({ kind: "value", value: 0 }, watts);
    expect(chance.ofValue(0.3, 0)).toBeGreaterThan(-0.1);
    expect(chance.ofValue(2, 0)).toBeCloseTo(Math.log(0.5), 9);
    expect(chance.ofValue(250, 10)).toBeLessThan(-100);
  });

  test("a number written to the whole ohm leaves half an ohm either way: 26 is as likely for 26.4 as for 25.6", () => {
    const chance = prepareReading({ kind: "value", value: 26, step: 1 }, ohmsBy(handheld));
    expect(chance.ofValue(26.4, 0.1)).toBeCloseTo(chance.ofValue(25.6, 0.1), 9);
    const exact = prepareReading({ kind: "value", value: 26, step: 0.1 }, ohmsBy(handheld));
    expect(chance.ofValue(26.6, 0.01) - chance.ofValue(26, 0.01)).toBeGreaterThan(
      exact.ofValue(26.6, 0.01) - exact.ofValue(26, 0.01),
    );
  });

  test("what the meter has no range for is weighed to one part in twenty: 34 s for 35 s, not for 70 s", () => {
    const seconds: ReadingSetUp = { meter: handheld, quantity: "seconds", leads: "nulled" };
    const chance = prepareReading({ kind: "value", value: 34, step: 1 }, seconds);
    expect(chance.ofValue(35, 1) - chance.ofValue(70, 1)).toBeGreaterThan(50);
  });
});

describe("words as readings", () => {
  const word = (spoken: Word, term: Term, setUp: ReadingSetUp = ohmsBy(handheld)): number =>
    Math.exp(logChanceShown({ kind: "word", word: spoken }, term, setUp));

  test.each([
    [35, 100, 26, 1],
    [35, 100, 67.5, 0.5],
    [35, 100, 120, 0],
    [40, 40, 39, 1],
    [40, 40, 41, 0],
  ])("a beeper of %d to %d Ω sounds at %d Ω with chance %d", (lo, hi, ohms, chance) => {
    expect(beepChance({ ...handheld, beeperOhms: { lo, hi } }, ohms)).toBe(chance);
  });

  test("a beep passes a 26 Ω heater and a 30 Ω pump as gladly as a dead short: thresholds run from 35 to 100 Ω", () => {
    // Source: six meters' handbooks give 35, 40, 50, 50, 70 and 100 Ω
    const { beeperOhms: _, ...withoutBeeper } = handheld;
    for (const meter of [handheld, basic, withoutBeeper]) {
      const short = word("beeps", value(0.2, 0.05), ohmsBy(meter));
      expect(word("beeps", value(26, 0.5), ohmsBy(meter))).toBeCloseTo(short, 9);
      expect(word("beeps", value(30, 0.5), ohmsBy(meter))).toBeCloseTo(short, 9);
      expect(word("beeps", value(150, 5), ohmsBy(meter))).toBeLessThan(0.03);
      expect(word("beeps", open, ohmsBy(meter))).toBeLessThan(0.03);
    }
  });

  test("no word moves the odds by more than a factor of 50, whatever the path", () => {
    const spoken: readonly Word[] = ["beeps", "no beep", "good", "some", "none", "low", "has continuity", "bad"];
    const terms = [0.1, 5, 26, 60, 300, 5e3, 1e6, 1e8].map((ohms) => value(ohms, 0.02 * ohms));
    for (const one of spoken) {
      for (const expected of [undefined, value(26.5, 1), open]) {
        const setUp = { ...ohmsBy(handheld), ...(expected === undefined ? {} : { expected }) };
        const chances = [...terms, open].map((term) => word(one, term, setUp));
        expect(Math.max(...chances) / Math.min(...chances)).toBeLessThanOrEqual(50);
        expect(Math.min(...chances)).toBeGreaterThanOrEqual(0.02 - 1e-12);
      }
    }
  });

  test("good and bad are said against what a good machine shows, and sum to 1; half the heater is low, not good", () => {
    const setUp: ReadingSetUp = { ...ohmsBy(handheld), expected: value(26.5, 1) };
    expect(word("good", value(26, 0.5), setUp)).toBeGreaterThan(0.9);
    expect(word("good", value(13, 0.5), setUp)).toBeLessThan(0.25);
    expect(word("low", value(13, 0.5), setUp)).toBeGreaterThan(4 * word("low", value(26, 0.5), setUp));
    expect(word("good", open, setUp)).toBeLessThan(0.06);
    expect(word("good", value(20, 1), setUp) + word("bad", value(20, 1), setUp)).toBeCloseTo(1, 9);
    const openIsGood: ReadingSetUp = { ...ohmsBy(handheld), expected: open };
    expect(word("good", open, openIsGood)).toBeGreaterThan(0.9);
    expect(word("good", value(26, 1), openIsGood)).toBeLessThan(0.06);
  });

  test("none is OL in ohms and no voltage in volts", () => {
    const volts: ReadingSetUp = { meter: handheld, quantity: "volts", leads: "nulled" };
    expect(word("none", open)).toBeGreaterThan(0.9);
    expect(word("none", value(26, 1))).toBeLessThan(0.05);
    expect(word("none", value(0, 0.1), volts)).toBeGreaterThan(0.9);
    expect(word("none", value(230, 5), volts)).toBeLessThan(0.05);
  });

  test(`every reading gives every term a log chance that is a number at most 0 (seed ${seed})`, () => {
    const shown: fc.Arbitrary<SingleShown> = fc.oneof(
      fc.double({ min: 0, max: 1e9, noNaN: true }).map((ohms) => ({ kind: "value", value: ohms }) as const),
      fc.constant({ kind: "over limit" } as const),
      fc.constantFrom<Word>("beeps", "good", "some", "low").map((one) => ({ kind: "word", word: one }) as const),
    );
    const ohms = fc.double({ min: 0, max: 1e12, noNaN: true });
    fc.assert(
      fc.property(shown, ohms, fc.double({ min: 0, max: 1e6, noNaN: true }), (reading, mean, sigma) => {
        const chance = prepareReading(reading, ohmsBy(handheld));
        for (const log of [chance.ofValue(mean, sigma), chance.ofOpen]) {
          expect(Number.isNaN(log)).toBe(false);
          expect(log).toBeLessThanOrEqual(1e-12);
        }
      }),
      { seed, numRuns: 1000 },
    );
  });
});
