import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { seeded } from "../chance/index.ts";
import { estimate } from "../quantity/index.ts";
import { judgeSafety, type SafetyFindings } from "./judge.ts";
import { limitFor } from "./limit.ts";
import { plugDischarge } from "./plug-discharge.ts";
import { readSafetyRules } from "./read-rules.ts";
import { METERED, PROTECTION_CLASSES, type SafetyRules } from "./rules.ts";

const rules = (name: string): SafetyRules => {
  const read = readSafetyRules(readFileSync(`data/safety/${name}.yaml`, "utf8"), `${name}.yaml`);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
};
const all = readdirSync("data/safety").map((file) => rules(file.replace(".yaml", "")));
const de = rules("de-2008");
const uk4 = rules("uk-4");
const bare: SafetyFindings = { look: "pass", readings: {}, cannot: [] };
const earth = (ohms: number, u = 0.001): SafetyFindings => ({
  ...bare,
  readings: { earth: { value: estimate(ohms, { u }) } },
});
const lineOf = (set: SafetyRules, tested: Parameters<typeof judgeSafety>[1], found: SafetyFindings, name: string) =>
  judgeSafety(set, tested, found).lines.find((line) => line.test === name);

describe("limits", () => {
  // DIN VDE 0701-0702:2008-06, 5.3: 0.3 Ω to 5 m, 0.1 Ω for each further 7.5 m begun, at most 1 Ω; worked out from it.
  test.each([
    [1.5, 0.3],
    [5, 0.3],
    [5.1, 0.4],
    [12.5, 0.4],
    [12.6, 0.5],
    [25, 0.6],
    [57.5, 1],
    [60, 1],
  ])("Germany 2008: %f m of cord, %f Ω", (cordMetres, ohms) => {
    expect(limitFor(de, "earth", { protection: "I", cordMetres })?.limit).toBeCloseTo(ohms, 9);
  });

  // The same, 5.5: 3.5 mA; heating above 3.5 kW 1 mA/kW, at most 10 mA.
  test.each([
    [2000, 3.5],
    [3500, 3.5],
    [3600, 3.6],
    [7200, 7.2],
    [12000, 10],
  ])("Germany 2008: %i W of heating, %f mA", (heatingWatts, milliamperes) => {
    const found = limitFor(de, "protective current", { protection: "I", heatingWatts });
    expect((found?.limit ?? 0) * 1000).toBeCloseTo(milliamperes, 9);
  });

  test("EN 50678: 1.5 mm² and 3 m 0.3 Ω; 2.5 mm² and 3 m the smallest, 0.1 Ω", () => {
    const at = (cordSection: number) =>
      limitFor(rules("en-50678"), "earth", { protection: "I", cordMetres: 3, cordSection });
    expect(at(1.5)?.limit).toBeCloseTo(0.3, 9);
    expect(at(2.5)?.limit).toBeCloseTo(0.1, 9);
  });

  // Code of Practice, leakage: 4th edition by kind, class II 0.25 mA; 5th edition 5 mA for everything.
  test("United Kingdom: a portable one 0.75 mA, 2 kW of heating 1.5 mA, class II 0.25 mA; since the 5th edition 5 mA", () => {
    const milliamperes = (set: SafetyRules, name: "protective current" | "touch current", tested: object) =>
      (limitFor(set, name, { protection: name === "touch current" ? "II" : "I", ...tested })?.limit ?? 0) * 1000;
    expect(milliamperes(uk4, "protective current", { isPortable: true })).toBeCloseTo(0.75, 9);
    expect(milliamperes(uk4, "protective current", {})).toBeCloseTo(3.5, 9);
    expect(milliamperes(uk4, "protective current", { heatingWatts: 2000 })).toBeCloseTo(1.5, 9);
    expect(milliamperes(uk4, "protective current", { heatingWatts: 9000 })).toBeCloseTo(5, 9);
    expect(milliamperes(uk4, "touch current", {})).toBeCloseTo(0.25, 9);
    expect(milliamperes(rules("uk-5"), "protective current", { isPortable: true })).toBeCloseTo(5, 9);
  });
});

describe("verdicts", () => {
  // Code of Practice, Table A5.1, worked answers for 1.0 mm² of cord.
  test.each([
    [0.12, 2, "pass"],
    [0.14, 1.75, "fail"],
  ])("United Kingdom: %f Ω over %f m: %s", (ohms, cordMetres, says) => {
    const tested = { protection: "I", cordSection: 1, cordMetres } as const;
    expect(lineOf(uk4, tested, earth(ohms), "earth")?.says).toBe(says);
  });

  test("0.14 Ω over 1.75 m by a meter good to 0.03 Ω is too close to say", () => {
    const tested = { protection: "I", cordSection: 1, cordMetres: 1.75 } as const;
    expect(lineOf(uk4, tested, earth(0.14, 0.015), "earth")?.says).toBe("too close to say");
  });

  test("a value without its ± never passes, and fails all the same", () => {
    const tested = { protection: "I", cordSection: 1, cordMetres: 2 } as const;
    expect(lineOf(uk4, tested, earth(0.02, 0), "earth")).toMatchObject({
      says: "too close to say",
      why: "no spread given",
    });
    expect(lineOf(uk4, tested, earth(0.9, 0), "earth")?.says).toBe("fail");
  });

  test("a cord whose section is not known has no limit, and never passes", () => {
    expect(lineOf(uk4, { protection: "I", cordMetres: 2 }, earth(0.01), "earth")).toMatchObject({
      says: "too close to say",
      why: "no limit for this cord",
    });
  });

  test("a failed earth ends the row: insulation taken after it does not count, and nothing comes next", () => {
    const found = earth(0.9);
    const readings = { ...found.readings, insulation: { above: 20e6 } };
    const verdict = judgeSafety(de, { protection: "I", cordMetres: 2 }, { ...found, readings });
    expect(verdict.says).toBe("fail");
    expect(verdict.next).toBeUndefined();
    expect(verdict.lines.find((line) => line.test === "insulation")).toMatchObject({
      says: "not measured",
      why: "after a failure",
    });
  });

  test("insulation that cannot be measured is stood in for by the protective current, and by nothing else", () => {
    const readings = { earth: { value: estimate(0.1, { u: 0.01 }) } };
    const cannot: SafetyFindings = { look: "pass", function: "pass", readings, cannot: ["insulation"] };
    const tested = { protection: "I", cordMetres: 2 } as const;
    expect(judgeSafety(de, tested, cannot).says).toBe("not finished");
    const current = { ...readings, "protective current": { value: estimate(0.001, { u: 0.0001 }) } };
    expect(judgeSafety(de, tested, { ...cannot, readings: current }).says).toBe("pass");
    expect(judgeSafety(de, tested, { ...cannot, cannot: [], readings: current })).toMatchObject({ next: "insulation" });
  });
});

test("300 drawn appliances by every rule set (seed 7): no pass for what was not measured or does not conform", () => {
  const random = seeded(7);
  let passes = 0;
  const half = (): boolean => random.uniform() < 0.5;
  for (let i = 0; i < 300; i++) {
    const readings: Record<string, { value: ReturnType<typeof estimate> } | { above: number }> = {};
    for (const name of METERED) {
      const size = name === "insulation" ? 4e6 : name === "earth" ? 0.4 : 0.006;
      const value = size * random.uniform();
      if (random.uniform() < 0.8)
        readings[name] = half() ? { value: estimate(value, { u: (value * random.uniform()) / 5 }) } : { above: value };
    }
    const tested = {
      protection: PROTECTION_CLASSES[Math.floor(random.uniform() * 3)] ?? "I",
      heatingWatts: half() ? 0 : 9000 * random.uniform(),
      isPortable: half(),
      hasBareMetal: half(),
      ...(half() ? {} : { cordMetres: 60 * random.uniform() }),
      ...(half() ? {} : { cordSection: half() ? 1 : 2.5 }),
    };
    for (const set of all) {
      const { says, lines } = judgeSafety(set, tested, { ...bare, ...(half() ? { function: "pass" } : {}), readings });
      for (const line of lines) {
        if (line.says !== "pass" || line.test === "look" || line.test === "function") continue;
        passes++;
        const reading = readings[line.test] ?? { above: Number.NaN };
        const shown = "above" in reading ? reading.above : reading.value.value;
        if (line.test === "insulation") expect(shown).toBeGreaterThanOrEqual(line.limit ?? Number.NaN);
        else {
          expect("above" in reading).toBe(false);
          expect(shown).toBeLessThanOrEqual(line.limit ?? Number.NaN);
        }
      }
      if (says === "pass") expect(lines.map((line) => line.says)).toEqual(lines.map(() => "pass"));
    }
  }
  expect(passes).toBeGreaterThan(100);
});

test("a limit without a source is refused, and so is a test nobody knows", () => {
  const text =
    "says: a\ncountry: b\nedition: c\nstatus: read\ntest volts: 500 V\nwith surge suppressors: 250 V\nlimits:\n  - {test: earth, class: I, limit: 0R1}\n  - {test: smell, class: I, limit: 1, source: M}\n";
  const read = readSafetyRules(text, "x.yaml");
  expect(read.ok).toBe(false);
  if (!read.ok) expect(read.issues.map(({ code }) => code)).toContain("safety.no-source");
});

test("every rule set asks class I for earth, insulation and current, II for insulation and touch, III for insulation", () => {
  for (const set of all) {
    for (const heatingWatts of [0, 2000]) {
      for (const isPortable of [true, false]) {
        const asked = PROTECTION_CLASSES.map((protection) =>
          judgeSafety(set, { protection, heatingWatts, isPortable }, bare).lines.map((line) => line.test),
        );
        expect(asked, set.id).toEqual([
          ["look", "earth", "insulation", "protective current", "function"],
          ["look", "insulation", "touch current", "function"],
          ["look", "insulation", "function"],
        ]);
      }
    }
  }
});

// IEC 60335-1, 22.5: at most 34 V one second after the plug is pulled, above 0.1 µF. 230·√2·e^(−1/RC), worked out.
test.each([
  [0.47e-6, 1e6, 38.74, false],
  [0.47e-6, 0.47e6, 3.52, true],
  [0.1e-6, 10e6, 119.66, true],
])("%f F with %f Ω: %f V after a second", (farads, ohms, volts, isWithin) => {
  const left = plugDischarge(farads, ohms, 230);
  expect(left.volts).toBeCloseTo(volts, 1);
  expect(left.isWithin).toBe(isWithin);
});
