import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readOwnShop, readShop, withOwnShop, workPrice } from "./index.ts";

const OWN = {
  letterhead: { name: "Quay repairs", lines: ["1 Quay"], town: "Ostermoor", country: "GB", "tax number": "12/3" },
  currency: "GBP",
  vat: 20,
  "per hour": 60,
  "call-out": 30,
  diagnosis: 25,
  "due days": 7,
};

test("a shop's own words lie over the cost file, and what they do not tell stays the file's", () => {
  const file = readShop(readFileSync("data/costs/demo-shop.yaml", "utf8"), "demo-shop");
  const own = readOwnShop(JSON.stringify(OWN));
  if (!file.ok || !own.ok) throw new Error("not read");
  const shop = withOwnShop(file.value, own.value);
  expect(shop).toMatchObject({ currency: "GBP", perHour: 60, callOut: 30, van: file.value.van });
  expect(shop.letterhead).toEqual({
    party: { name: "Quay repairs", lines: ["1 Quay"], town: "Ostermoor", country: "GB", taxNumber: "12/3" },
  });
  expect(shop.trading).toMatchObject({
    country: "GB",
    currency: "GBP",
    vat: { hundredths: 2000 },
    diagnosis: 25,
    dueDays: 7,
    // Nothing of what the file's shop promises or asks is this one's.
    deposit: 0,
    bands: [],
  });
  expect(file.value.trading?.guaranteeMonths).toEqual({ new: 12, used: 6 });
  expect(shop.trading?.guaranteeMonths).toBeUndefined();
  const { trading: _trading, ...bare } = file.value;
  expect(withOwnShop(bare, own.value).trading).toMatchObject({ withTax: true, deposit: 0, vat: { hundredths: 2000 } });
});

test("its guarantee, its deposit and its prices by minutes are its own", () => {
  const bands = [
    { to: 30, price: 45 },
    { to: 60, price: 80 },
  ];
  const told = { ...OWN, guarantee: { new: 24, used: 3 }, deposit: "30 %", bands };
  const file = readShop(readFileSync("data/costs/demo-shop.yaml", "utf8"), "demo-shop");
  const own = readOwnShop(JSON.stringify(told));
  if (!file.ok || !own.ok) throw new Error("not read");
  const shop = withOwnShop(file.value, own.value);
  expect(shop.trading).toMatchObject({ guaranteeMonths: { new: 24, used: 3 }, deposit: 0.3 });
  // 45 to half an hour, 80 to the hour, and what is beyond by the hour of 60.
  expect([10, 30, 31, 60, 90].map((minutes) => workPrice(minutes, shop))).toEqual([45, 45, 80, 80, 110]);
});

test.each([
  [{ ...OWN, deposit: "120 %" }, "read.chance"],
  [{ ...OWN, guarantee: { used: 6 } }, "read.missing"],
  [
    {
      ...OWN,
      bands: [
        { to: 60, price: 80 },
        { to: 30, price: 45 },
      ],
    },
    "trading.bands",
  ],
  [{ ...OWN, currency: "XXX" }, "trading.currency"],
  [{ ...OWN, vat: { category: "E" } }, "trading.vat"],
  [{ ...OWN, letterhead: { ...OWN.letterhead, country: "Germany" } }, "party.country"],
  [{ ...OWN, letterhead: { ...OWN.letterhead, bank: { holder: "Q", account: "DE00" } } }, "bank.account"],
  [{ ...OWN, letterhead: { lines: [] } }, "read.missing"],
  [{ ...OWN, "per hour": 0 }, "read.number"],
])("%j is refused: %s", (own, code) => {
  const read = readOwnShop(JSON.stringify(own));
  expect(read.ok ? [] : read.issues.map((issue) => issue.code)).toContain(code);
});
