import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readOwnShop, readShop, withOwnShop } from "./index.ts";

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
    guaranteeMonths: { new: 12, used: 6 },
  });
  const { trading: _trading, ...bare } = file.value;
  expect(withOwnShop(bare, own.value).trading).toMatchObject({ withTax: true, deposit: 0, vat: { hundredths: 2000 } });
});

test.each([
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
