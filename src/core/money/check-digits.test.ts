import fc from "fast-check";
import { expect, test } from "vitest";
import { creditorReference, isBic, isCreditorReference, isIban } from "./index.ts";

// Published samples: IBAN in EPC069-12 examples; RF18 5390 0754 7034 in the ISO 11649 guidance.
test.each(["BE72 0000 0000 1616", "DE71110220330123456789"])("%s is an account number", (iban) => {
  expect(isIban(iban)).toBe(true);
});

test("RF18 5390 0754 7034 is a creditor reference, and the one of its own number", () => {
  expect(isCreditorReference("RF18 5390 0754 7034")).toBe(true);
  expect(creditorReference("539007547034")).toBe("RF18539007547034");
});

test("one changed digit is found, in an account number and in a reference", () => {
  for (const [good, is] of [
    ["DE71110220330123456789", isIban],
    ["RF18539007547034", isCreditorReference],
  ] as const) {
    for (let place = 2; place < good.length; place++) {
      const changed = (Number(good[place]) + 1) % 10;
      expect(is(good.slice(0, place) + changed + good.slice(place + 1)), `${good} at ${place}`).toBe(false);
    }
  }
});

test("every bill's number has a reference that checks", () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[A-Za-z0-9-]{1,20}$/), (number) => {
      const reference = creditorReference(number);
      expect(reference === undefined ? /^-+$/.test(number) : isCreditorReference(reference)).toBe(true);
    }),
  );
});

test("a bank's code has eight signs or eleven", () => {
  expect(["BPOTBEB1", "BPOTBEB1XXX", "BPOTBEB", "1234567890"].map(isBic)).toEqual([true, true, false, false]);
});
