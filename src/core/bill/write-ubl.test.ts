import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { branchJob, must, workedBranch } from "../../../test/machines/branch-job.ts";
import { readJob } from "../ledger/index.ts";
import { type Bill, creditNoteOf, invoiceOf, quoteOf, writeUbl } from "./index.ts";

const WHO = `  - customer: {name: "Mill & Sons <Ltd>", lines: [7 Mill Row, back door, third floor], town: Ostermoor, postcode: "00017", country: DE}\n`;
const NUMBERED = { number: "F-0007", date: "2026-03-04" };
const invoice = (events: string): Bill => must(invoiceOf(workedBranch(WHO + events), NUMBERED));
const MENDED = invoice("  - did: {remedy: fit a new heater, on: heater, worked: yes, price: 80}\n  - paid: 49\n");

/** Texts of every element of this name within the first elements of the names before it. */
function texts(xml: string, ...path: readonly string[]): readonly string[] {
  const [name = "", ...rest] = [...path].reverse();
  const within = rest.reduceRight(
    (text, outer) => new RegExp(`<${outer}[ >][\\s\\S]*?</${outer}>`).exec(text)?.[0] ?? "",
    xml,
  );
  return [...within.matchAll(new RegExp(`<${name}(?: [^>]*)?>([^<]*)</${name}>`, "g"))].map(([, text = ""]) => text);
}

const cents = (text: string | undefined): number => {
  expect(text).toMatch(/^-?\d+\.\d\d$/);
  return Math.round(Number(text) * 100);
};
const one = (xml: string, ...path: readonly string[]): number => cents(texts(xml, ...path)[0]);
const many = (xml: string, name: string): readonly number[] => texts(xml, name).map(cents);
const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);

/** The sums of EN 16931, in whole cents, as they stand in the document. */
function holdsTheSums(xml: string): void {
  const total = "cac:LegalMonetaryTotal";
  const lines = one(xml, total, "cbc:LineExtensionAmount");
  const [, ofLines = ""] = xml.split("</cac:LegalMonetaryTotal>");
  const each = many(ofLines, "cbc:LineExtensionAmount");
  expect(sum(each)).toBe(lines); // BR-CO-10
  expect(one(xml, total, "cbc:TaxExclusiveAmount")).toBe(lines); // BR-CO-13
  const [tax = 0, ...taxes] = many(xml, "cbc:TaxAmount");
  expect(sum(taxes)).toBe(tax); // BR-CO-14
  const gross = one(xml, total, "cbc:TaxInclusiveAmount");
  expect(gross).toBe(lines + tax); // BR-CO-15
  const optional = (name: string): number => sum(texts(xml, total, name).map(cents));
  expect(one(xml, total, "cbc:PayableAmount")).toBe(
    gross - optional("cbc:PrepaidAmount") + optional("cbc:PayableRoundingAmount"),
  ); // BR-CO-16
  const percents = texts(xml, "cac:TaxTotal", "cbc:Percent").map(Number);
  many(xml, "cbc:TaxableAmount").forEach((taxable, n) => {
    // BR-CO-17, our own half a cent and not the rule's whole unit.
    expect(Math.abs((taxable * (percents[n] ?? 0)) / 100 - (taxes[n] ?? 0))).toBeLessThanOrEqual(0.5 + 1e-9);
  });
}

describe("the electronic invoice", () => {
  const xml = must(writeUbl(MENDED));

  test("says what it is: EN 16931, number, day, 380, euro", () => {
    expect(texts(xml, "cbc:CustomizationID")).toEqual(["urn:cen.eu:en16931:2017"]);
    expect(texts(xml, "Invoice", "cbc:ID")[0]).toBe("F-0007");
    expect(texts(xml, "cbc:InvoiceTypeCode")).toEqual(["380"]);
    expect(texts(xml, "cbc:DueDate")).toEqual(["2026-03-18"]);
    expect(texts(xml, "cbc:DocumentCurrencyCode")).toEqual(["EUR"]);
  });

  test("holds the sums, what was paid taken off", () => {
    holdsTheSums(xml);
    expect(texts(xml, "cbc:PayableAmount")).toEqual(["100.00"]);
  });

  test("keeps the sequence of UBL 2.1", () => {
    const children = [...xml.matchAll(/^ {2}<((?:cbc|cac):\w+)/gm)].map(([, name]) => name);
    expect([...new Set(children)]).toEqual([
      "cbc:CustomizationID",
      "cbc:ID",
      "cbc:IssueDate",
      "cbc:DueDate",
      "cbc:InvoiceTypeCode",
      "cbc:Note",
      "cbc:DocumentCurrencyCode",
      "cbc:BuyerReference",
      "cac:AccountingSupplierParty",
      "cac:AccountingCustomerParty",
      "cac:PaymentMeans",
      "cac:PaymentTerms",
      "cac:TaxTotal",
      "cac:LegalMonetaryTotal",
      "cac:InvoiceLine",
    ]);
  });

  test("escapes what a name may hold", () => {
    expect(xml).toContain("<cbc:Name>Mill &amp; Sons &lt;Ltd&gt;</cbc:Name>");
  });

  test("a discount is a quantity below zero at a price above it", () => {
    const bill = invoice(
      "  - charged: {what: work, says: a, amount: 50}\n  - charged: {what: discount, says: b, amount: -5}\n",
    );
    const discounted = must(writeUbl(bill));
    holdsTheSums(discounted);
    expect(texts(discounted, "cbc:InvoicedQuantity")).toEqual(["1", "-1"]);
    expect(many(discounted, "cbc:PriceAmount").every((price) => price >= 0)).toBe(true);
  });

  test("of a shop outside the scope of the tax names no rate and no VAT identifier, but why", () => {
    const vat = "{category: O, reason: small business}";
    const outside = must(writeUbl(invoice(`  - charged: {what: work, says: a, amount: 50, vat: ${vat}}\n`)));
    expect(texts(outside, "cbc:Percent")).toEqual([]);
    expect(texts(outside, "cac:PartyTaxScheme", "cbc:CompanyID")).toEqual([]);
    expect(texts(outside, "cbc:TaxExemptionReason")).toEqual(["small business"]);
  });

  test("is refused with all that is missing: countries, the seller's number, the buyer's where the buyer pays the tax", () => {
    const { country: _c, vatId: _v, ...seller } = MENDED.seller;
    const { country: _d, ...buyer } = MENDED.buyer;
    const refused = writeUbl({ ...MENDED, seller, buyer });
    expect(refused.ok ? [] : refused.issues.map(({ expected }) => expected)).toEqual([
      "country (BR-09)",
      "country (BR-11)",
      "vat id or tax number (BR-S-02)",
    ]);
    const reversed = invoice(
      "  - charged: {what: work, says: a, amount: 50, vat: {category: AE, reason: reverse charge}}\n",
    );
    expect(writeUbl(reversed).ok).toBe(false);
    expect(writeUbl(must(quoteOf(workedBranch(WHO), NUMBERED))).ok).toBe(false);
  });

  test("any lines, in tax or out of it, hold the sums", () => {
    const line = fc.record({
      amount: fc.integer({ min: 1, max: 90_000 }).map((minor) => minor / 100),
      vat: fc.constantFrom(19, 7, 7.7, 0),
      quantity: fc.constantFrom(1, 2.5, 40),
    });
    const base = workedBranch(WHO);
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), fc.boolean(), (lines, withTax) => {
        const events = lines.map(({ amount, vat, quantity }, n) => ({
          what: "part",
          says: `line ${n}`,
          amount,
          vat,
          quantity,
        }));
        const job = must(
          readJob(branchJob(`${WHO}${events.map((event) => `  - charged: ${JSON.stringify(event)}\n`).join("")}`)),
        );
        const { trading } = base.shop;
        if (trading === undefined) throw new Error("the demonstration shop trades");
        const worked = { ...base, job, shop: { ...base.shop, trading: { ...trading, withTax } } };
        const bill = must(invoiceOf(worked, NUMBERED));
        holdsTheSums(must(writeUbl(bill)));
        if (withTax) expect(bill.totals.due).toBe(sum(lines.map(({ amount }) => Math.round(amount * 100))));
      }),
    );
  });
});

describe("the electronic credit note", () => {
  const note = must(creditNoteOf(MENDED, { number: "G-0001", date: "2026-03-10", why: "failed again" }));
  const xml = must(writeUbl(note));

  test("is of type 381, names its invoice, and asks for nothing", () => {
    expect(texts(xml, "cbc:CreditNoteTypeCode")).toEqual(["381"]);
    expect(texts(xml, "cac:InvoiceDocumentReference", "cbc:ID")).toEqual(["F-0007"]);
    expect(xml).not.toContain("PaymentMeans");
  });

  test("holds the sums, above zero, of the whole invoice", () => {
    holdsTheSums(xml);
    expect(texts(xml, "cbc:PayableAmount")).toEqual(["149.00"]);
  });
});
