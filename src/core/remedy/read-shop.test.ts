import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readShop } from "./read-shop.ts";

const TEXT = readFileSync(new URL("../../../data/costs/demo-shop.yaml", import.meta.url), "utf8");

describe("a cost file", () => {
  test("of the demonstration shop is read without an issue, 72 an hour and hands off live parts", () => {
    const read = readShop(TEXT, "demo-shop", "demo-shop.yaml");
    expect(read.ok && read.warnings).toEqual([]);
    expect(read.ok && read.value).toMatchObject({ id: "demo-shop", perHour: 72, handheld: false, timeStopMinutes: 45 });
  });

  test("with 4 faults tells them all, each with its line", () => {
    const bad = TEXT.replace("per hour: 72", "per hour: -72")
      .replace("source: I\n", "")
      .replace("comeback: 95", "come back: 95")
      .replace("look: 1", "look: soon");
    const read = readShop(bad, "demo-shop", "demo-shop.yaml");
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.issues.map((issue) => issue.code).sort()).toEqual([
      "costs.no-source",
      "read.missing",
      "read.number",
      "read.number",
      "read.unknown-key",
    ]);
    expect(read.issues.every((issue) => issue.line !== undefined)).toBe(true);
  });
});
