import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Meter } from "./meter.ts";
import { rangesOf } from "./range.ts";
import { readMeter } from "./read-meter.ts";

const files = readdirSync("data/meters");

function meterOf(file: string): Meter {
  const read = readMeter(readFileSync(`data/meters/${file}`, "utf8"), file);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

describe("the profiles that come with the tool", () => {
  test.each(files)(
    "%s is read without an issue; its ranges rise, each step is under a hundredth of the top",
    (file) => {
      const meter = meterOf(file);
      expect(meter.id).toBe(file.replace(".yaml", ""));
      expect(meter.source).toMatch(/^[CMDPSIR]/);
      for (const range of meter.ranges) {
        expect(range.resolution).toBeLessThan(range.top / 100);
        expect(range.shareOfReading).toBeLessThan(0.1);
      }
      for (const quantity of new Set(meter.ranges.map((range) => range.quantity))) {
        const tops = rangesOf(meter, quantity).map((range) => range.top);
        expect(tops).toEqual([...new Set(tops)].sort((a, b) => a - b));
      }
    },
  );

  test("among them are 6000 and 2000 counts, a low-impedance mode, 250/500 V insulation, a leakage clamp and a plug-in meter", () => {
    expect(files.map((file) => file.replace(".yaml", ""))).toEqual(
      expect.arrayContaining([
        "handheld-6000",
        "basic-2000",
        "low-impedance",
        "insulation-tester",
        "leakage-clamp",
        "clamp",
        "plug-in",
        "thermometer",
        "capacitance",
        "by-hand",
      ]),
    );
    expect(meterOf("insulation-tester.yaml").insulationVolts).toEqual([250, 500]);
    expect(meterOf("plug-in.yaml").ranges[0]?.floor).toBe(2);
  });
});

describe("a profile with mistakes", () => {
  test("all of them are said at once, with line, what was found and what was expected", () => {
    const text = [
      "says: my meter",
      "input: 10 V",
      "beepr: 40",
      "ranges:",
      "  - {of: ohms, top: 600R, step: 0R1, share: 0.9 %, counts: 3}",
      "  - {of: ohm, top: 600R, step: 0R1, share: 0.9 %, counts: 3}",
      "  - {of: volts, top: 600 V, step: 700 V, share: 120 %, counts: -1}",
    ].join("\n");
    const read = readMeter(text, "mine.yaml");
    const issues = read.ok ? [] : read.issues;
    expect(issues.map(({ code, line }) => [code, line])).toEqual(
      expect.arrayContaining([
        ["quantity.wrong-unit", 2],
        ["read.unknown-key", 3],
        ["read.choice", 6],
        ["read.chance", 7],
        ["read.number", 7],
        ["meter.no-source", 1],
      ]),
    );
    expect(issues.every(({ file }) => file === "mine.yaml")).toBe(true);
  });

  test("text of 50 MB is refused in under a second", () => {
    const read = readMeter(" ".repeat(50_000_000), "big.yaml");
    expect(read.ok).toBe(false);
  });
});
