import { describe, expect, test } from "vitest";
import { drawScale } from "./scale.ts";

const good = { says: "heater good", reach: { lo: 22.9, hi: 26.7 }, value: "22.9 – 26.7 Ω" } as const;
const open = { says: "heater open", reach: "open", value: "OL" } as const;

describe("the reading scale in text", () => {
  test("a band of 22.9 to 26.7 Ω stands between the stops for 10 and 100 Ω", () => {
    const [labels = "", axis = "", band = ""] = drawScale({ axis: "ohms", top: 0, stop: String, bands: [good] });
    const at = band.indexOf("█");
    expect(at).toBeGreaterThan(labels.indexOf("10"));
    expect(at).toBeLessThan(labels.indexOf("100"));
    expect(axis.endsWith("┤")).toBe(true);
  });

  test("OL has a stop of its own at the very end, apart from 10 MΩ", () => {
    const [, axis = "", band = ""] = drawScale({ axis: "ohms", top: 0, stop: String, bands: [open] });
    expect(band.indexOf("█")).toBe(axis.length - 1);
    const [, , high = ""] = drawScale({
      axis: "ohms",
      top: 0,
      stop: String,
      bands: [{ ...open, reach: { lo: 1e7, hi: 2e7 } }],
    });
    expect(high.lastIndexOf("█")).toBeLessThan(axis.length - 2);
  });

  test("the mark stands under the band it fell in", () => {
    const lines = drawScale({ axis: "ohms", top: 0, stop: String, bands: [good], mark: 25 });
    const [, , band = ""] = lines;
    expect(band.charAt(lines.at(-1)?.indexOf("▲") ?? -1)).toBe("█");
  });

  test("a straight axis prints its stops with their unit", () => {
    const stop = (value: number): string => `${Number((value * 1e6).toPrecision(3))} µF`;
    const band = { says: "good", reach: { lo: 7.6e-6, hi: 8.4e-6 }, value: "7.6 – 8.4 µF" } as const;
    const [labels = ""] = drawScale({ axis: "straight", top: 1e-5, stop, bands: [band] });
    expect(labels.trim().split(/ {2,}/)).toEqual(["0 µF", "2.5 µF", "5 µF", "7.5 µF", "10 µF"]);
  });

  test("a name of 160 characters is told in full, and no line is over 92", () => {
    const says = Array.from({ length: 20 }, (_, n) => `name ${n}`).join("; ");
    const lines = drawScale({
      axis: "ohms",
      top: 0,
      stop: String,
      bands: [{ ...good, says, odds: "better than 9 in 10" }, open],
    });
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(92);
    expect(lines.map((line) => line.trim()).join(" ")).toContain(says);
  });
});
