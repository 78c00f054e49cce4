import { describe, expect, test } from "vitest";
import { drawScale } from "./scale.ts";

const good = { says: "heater good", reach: { lo: 22.9, hi: 26.7 }, value: "22.9 – 26.7 Ω" } as const;
const open = { says: "heater open", reach: "open", value: "OL" } as const;

describe("the reading scale in text", () => {
  test("a band of 22.9 to 26.7 Ω stands between the stops for 10 and 100 Ω", () => {
    const [labels = "", axis = "", band = ""] = drawScale({ axis: "ohms", top: 0, unit: "Ω", bands: [good] });
    const at = band.indexOf("█");
    expect(at).toBeGreaterThan(labels.indexOf("10"));
    expect(at).toBeLessThan(labels.indexOf("100"));
    expect(axis.endsWith("┤")).toBe(true);
  });

  test("OL has a stop of its own at the very end, apart from 10 MΩ", () => {
    const [, axis = "", band = ""] = drawScale({ axis: "ohms", top: 0, unit: "Ω", bands: [open] });
    expect(band.indexOf("█")).toBe(axis.length - 1);
    const [, , high = ""] = drawScale({
      axis: "ohms",
      top: 0,
      unit: "Ω",
      bands: [{ ...open, reach: { lo: 1e7, hi: 2e7 } }],
    });
    expect(high.lastIndexOf("█")).toBeLessThan(axis.length - 2);
  });

  test("the mark stands under the band it fell in", () => {
    const [, , band = "", mark = ""] = drawScale({ axis: "ohms", top: 0, unit: "Ω", bands: [good], mark: 25 });
    expect(band.charAt(mark.indexOf("▲"))).toBe("█");
  });

  test("no line is over 90 characters, however long the name", () => {
    const lines = drawScale({
      axis: "ohms",
      top: 0,
      unit: "Ω",
      bands: [{ ...good, says: "a very long name of a fault that goes on and on" }, open],
    });
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(90);
  });
});
