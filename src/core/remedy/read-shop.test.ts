import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readShop } from "./read-shop.ts";
import { workPrice } from "./trading.ts";

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

  test.each([
    ["vat: 19", "vat: 119", "read.number"],
    ["vat: 19", "vat: {category: E}", "trading.vat"],
    ["order days: 2..5", "order days: 5..2", "trading.days"],
    ["due days: 14", "bands: [{to: 60, price: 90}, {to: 30, price: 60}]", "trading.bands"],
    ["due days: 14", "step: 0.5", "read.number"],
    ["account: DE71110220330123456789", "account: DE71110220330123456788", "bank.account"],
    ["currency: EUR", "currency: XAU", "trading.currency"],
    ["country: DE\n  diagnosis", "country: Germany\n  diagnosis", "party.country"],
  ])("%s written as %s is refused: %s", (good, bad, code) => {
    expect(TEXT).toContain(good);
    const read = readShop(TEXT.replace(good, bad), "demo-shop", "demo-shop.yaml");
    expect(read.ok ? [] : read.issues.map((issue) => issue.code)).toContain(code);
  });

  test("without trading and letterhead is a shop all the same", () => {
    const read = readShop(TEXT.slice(0, TEXT.indexOf("trading:")), "demo-shop");
    expect(read.ok && [read.value.trading, read.value.letterhead]).toEqual([undefined, undefined]);
  });
});

describe("the price of work", () => {
  const bands = [
    { toMinutes: 30, price: 60 },
    { toMinutes: 60, price: 95 },
  ];
  test.each([
    [0, 60],
    [30, 60],
    [31, 95],
    [60, 95],
    [90, 95 + 36],
  ])("%i minutes come to %d by bands, at 72 an hour beyond the last", (minutes, price) => {
    expect(workPrice(minutes, { perHour: 72, trading: { bands } })).toBeCloseTo(price, 9);
  });

  test("40 minutes at 72 an hour are 48", () => {
    expect(workPrice(40, { perHour: 72 })).toBeCloseTo(48, 9);
  });
});
