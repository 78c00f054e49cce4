import { describe, expect, test } from "vitest";
import { estimate, exactly, parseAmount, type Rated, type UnitCode, uncertainty } from "../quantity/index.ts";
import { contactOfDrop, contactOfOhms } from "./contact.ts";
import { proveByHeatUp } from "./heat-up.ts";
import { proveByOperations } from "./operations.ts";
import { heatingInput } from "./plate-input.ts";

const rated = (text: string, unit: UnitCode): Rated => {
  const amount = parseAmount(text, { unit });
  if (!amount.ok) throw new Error(text);
  return amount.value;
};

describe("repeat operations", () => {
  // One-sided 95 % bound with no failure, 1 − 0.05^(1/n): success run, worked out from the formula.
  test.each([
    [5, 0.4507],
    [10, 0.2589],
    [20, 0.1391],
    [59, 0.0495],
  ])("%i good of as many: at most %f fail", (n, most) => {
    expect(proveByOperations(n, n).failsAtMost).toBeCloseTo(most, 4);
  });

  test("4 bad of 20: 0.0714 to 0.4010 (NIST/SEMATECH e-Handbook 7.2.4.2)", () => {
    const { failsAtLeast, failsAtMost } = proveByOperations(16, 20);
    expect(failsAtLeast).toBeCloseTo(0.0714, 4);
    expect(failsAtMost).toBeCloseTo(0.401, 4);
  });

  // NIST/SEMATECH e-Handbook 6.2.6, the table of the sequential plan p1 0.01, p2 0.10, alpha 0.05, beta 0.10.
  const nist = { good: 0.01, bad: 0.1, falseAlarm: 0.05, miss: 0.1 };
  test.each([
    [24, 0, "enough"],
    [23, 0, "go on"],
    [24, 1, "go on"],
    [24, 2, "go on"],
    [24, 3, "not mended"],
    [49, 1, "enough"],
    [74, 2, "enough"],
    [19, 2, "not mended"],
    [20, 2, "go on"],
    [38, 3, "not mended"],
  ] as const)("NIST's plan: %i operations, %i bad: %s", (n, bad, says) => {
    expect(proveByOperations(n - bad, n, nist).says).toBe(says);
  });

  test("NIST's plan: after 10 good ones 14 more are wanted (accepts with none bad from 24)", () => {
    expect(proveByOperations(10, 10, nist).more).toBe(14);
    expect(proveByOperations(19, 20, nist).more).toBe(29);
  });

  test("ln(0.05/0.95)/ln(0.8/0.99) = 13.8: 14 good ones are enough, 13 are not, none at all wants 14", () => {
    expect(proveByOperations(14, 14).says).toBe("enough");
    expect(proveByOperations(13, 13)).toMatchObject({ says: "go on", more: 1 });
    expect(proveByOperations(0, 0)).toMatchObject({ says: "go on", more: 14, failsAtMost: 1 });
  });

  test("as many more as it says are enough, and one fewer are not", () => {
    for (let of = 1; of < 60; of++) {
      for (let bad = 0; bad <= 3 && bad <= of; bad++) {
        const { says, more } = proveByOperations(of - bad, of, nist);
        if (says !== "go on" || more === undefined) continue;
        expect(proveByOperations(of - bad + more, of + more, nist).says).toBe("enough");
        expect(proveByOperations(of - bad + more - 1, of + more - 1, nist).says).not.toBe("enough");
      }
    }
  });

  test("more good than there were is a programming error", () => {
    expect(() => proveByOperations(3, 2)).toThrow(RangeError);
  });
});

describe("a contact at load", () => {
  test("50 mΩ at 10 A: 5 W and 500 mV; its relative spread is 2 parts of the current's and 1 of the ohms'", () => {
    const { watts, volts } = contactOfOhms(estimate(0.05, { ohms: 0.001 }), estimate(10, { amperes: 0.1 }));
    expect(watts.value).toBeCloseTo(5, 12);
    expect(volts.value).toBeCloseTo(0.5, 12);
    expect(uncertainty(watts) / watts.value).toBeCloseTo(Math.hypot(0.02, 2 * 0.01), 12);
  });

  test("the drop gives the same contact back", () => {
    const there = contactOfOhms(exactly(0.03), exactly(9));
    const back = contactOfDrop(there.volts, exactly(9));
    expect(back.ohms.value).toBeCloseTo(0.03, 12);
    expect(back.watts.value).toBeCloseTo(there.watts.value, 12);
  });

  // Resistance from voltage and current: 0.1 V (u 1 mV) over 15 mA (u 0.5 mA) is 6.67(23) ohms; MSL GTC, examples.
  test("0.1 V at 15 mA is 6.67 Ω with a standard uncertainty of 0.232 Ω (MSL GTC, worked example)", () => {
    const { ohms } = contactOfDrop(estimate(0.1, { volts: 0.001 }), estimate(0.015, { amperes: 0.0005 }));
    expect(ohms.value).toBeCloseTo(6.6667, 4);
    expect(uncertainty(ohms)).toBeCloseTo(0.232, 3);
  });
});

describe("a heat-up", () => {
  // IEC 60335-1, clause 10.1, Table 1; the bands worked out from it.
  test.each([
    [1800, 1620, 1890],
    [300, 270, 320],
    [2000, 1800, 2100],
    [100, 90, 110],
  ])("a plate of %i W may take %i to %i W", (watts, lo, hi) => {
    const band = heatingInput(watts);
    expect(band.lo).toBeCloseTo(lo, 9);
    expect(band.hi).toBeCloseTo(hi, 9);
  });

  const fourLitres = {
    litres: rated("4 L", "L"),
    from: rated("15", "Cel"),
    to: rated("60", "Cel"),
    ratedWatts: 2000,
    ratedVolts: 230,
    mainsVolts: rated("230 V", "V"),
  };

  // Specific heat of water 4.186 kJ/(kg·K): 4 kg through 45 K in 377 s are 2.0 kW into the water, in 419 s 1.8 kW.
  test.each([
    [377, 2000],
    [419, 1800],
  ])("4 L by 45 degrees in %i s are %i W in the water", (seconds, watts) => {
    const proof = proveByHeatUp({ ...fourLitres, seconds: rated(`${seconds} s`, "s") });
    const kept = Math.sqrt(0.6 * 0.85);
    expect((proof.watts.value * kept) / watts).toBeCloseTo(1, 2);
  });

  test("a heater as rated warms at the degrees a minute foretold", () => {
    const seconds = 500;
    const proof = proveByHeatUp({ ...fourLitres, seconds: rated(`${seconds} s`, "s") });
    const seen = (45 * 60) / seconds;
    expect(seen / proof.degreesPerMinute.value).toBeCloseTo(proof.ofRating.value, 9);
  });

  test("with tub and load weighed: 9.5 minutes fit, 20 are too little, 3 too much; half a heater is never said to fit", () => {
    const all = { ...fourLitres, tubKilograms: rated("8", "kg"), loadKilograms: rated("3", "kg") };
    const says = (text: string) => proveByHeatUp({ ...all, seconds: rated(text, "s") });
    expect(says("9.5 min").says).toBe("fits the rating");
    expect(says("20 min").says).toBe("too little");
    expect(says("3 min").says).toBe("too much");
    for (let minutes = 2; minutes < 40; minutes += 0.5) {
      const proof = says(`${minutes} min`);
      if (proof.ofRating.value <= 0.525) expect(proof.says).not.toBe("fits the rating");
    }
  });

  test("volts not known widen the answer; 207 V promises 0.81 of the watts", () => {
    const seconds = rated("500 s", "s");
    const { mainsVolts: _, ...without } = fourLitres;
    const known = proveByHeatUp({ ...fourLitres, seconds });
    const unknown = proveByHeatUp({ ...without, seconds });
    const low = proveByHeatUp({ ...fourLitres, mainsVolts: rated("207 V", "V"), seconds });
    expect(uncertainty(unknown.ofRating)).toBeGreaterThan(uncertainty(known.ofRating));
    expect(known.ofRating.value / low.ofRating.value).toBeCloseTo(0.81, 9);
  });

  test("what got no warmer is a programming error", () => {
    expect(() => proveByHeatUp({ ...fourLitres, to: rated("15", "Cel"), seconds: rated("9 min", "s") })).toThrow(
      RangeError,
    );
  });
});
