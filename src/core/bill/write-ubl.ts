import { type Checked, type Issue, IssueList } from "../issue/index.ts";
import { decimalText, type Minor, type Party, percentText, type VatRate } from "../money/index.ts";
import type { Bill, BillLine } from "./bill.ts";
import { type Element, element, xmlText } from "./xml.ts";

const UBL = "urn:oasis:names:specification:ubl:schema:xsd:";

/**
 * An invoice or credit note as UBL 2.1, of the core of EN 16931 and no more.
 *
 * A line's price is its net amount for the whole quantity (BT-146 with BT-149), so that it is exact where a price
 * agreed with tax divides badly.
 *
 * @returns the document; or what the rules ask for and the ledger does not know
 * @source EN 16931-1 with its UBL binding (CEN/TS 16931-3-2): rules BR-01 to BR-67, BR-CO-3 to BR-CO-26 as far as they touch what is written here
 */
export function writeUbl(bill: Bill): Checked<string> {
  const issues = new IssueList();
  for (const issue of missing(bill)) issues.add(issue);
  return issues.conclude(() => xmlText(documentOf(bill)));
}

function missing(bill: Bill): readonly Issue[] {
  const ask = (is: boolean, at: string, expected: string): readonly Issue[] =>
    is ? [] : [{ code: "ubl.missing", severity: "error", at: [at], found: "nothing", expected }];
  const { seller, buyer, lines, totals } = bill;
  const isTaxed = totals.groups.some(({ vat }) => vat.category !== "O");
  const isReversed = totals.groups.some(({ vat }) => vat.category === "AE");
  return [
    ...ask(bill.kind !== "quote", "kind", "an invoice or a credit note"),
    ...ask(seller.country !== undefined, "seller", "country (BR-09)"),
    ...ask(buyer.country !== undefined, "customer", "country (BR-11)"),
    ...ask(!isTaxed || (seller.vatId ?? seller.taxNumber) !== undefined, "seller", "vat id or tax number (BR-S-02)"),
    ...ask(lines.length > 0, "lines", "at least one line (BR-16)"),
    ...ask(!isReversed || buyer.vatId !== undefined, "customer", "vat id, since the buyer pays the tax (BR-AE-02)"),
  ];
}

function documentOf(bill: Bill): Element {
  const isCredit = bill.kind === "credit note";
  const name = isCredit ? "CreditNote" : "Invoice";
  const text = (key: string, value: string | undefined): Element | undefined => element(`cbc:${key}`, value);
  const head = [
    text("CustomizationID", "urn:cen.eu:en16931:2017"),
    text("ID", bill.number),
    text("IssueDate", bill.date),
    ...(isCredit ? [] : [text("DueDate", bill.due)]),
    text(`${name}TypeCode`, isCredit ? "381" : "380"),
    text("Note", bill.of === undefined ? bill.subject : `${bill.subject} · ${bill.of.why}`),
    text("DocumentCurrencyCode", bill.currency),
    text("BuyerReference", bill.job),
    element("cac:BillingReference", [
      element("cac:InvoiceDocumentReference", [text("ID", bill.of?.number), text("IssueDate", bill.of?.date)]),
    ]),
  ];
  const root = element(
    name,
    [
      ...head,
      element("cac:AccountingSupplierParty", [partyOf(bill.seller, bill)]),
      element("cac:AccountingCustomerParty", [partyOf(bill.buyer, bill)]),
      paymentOf(bill),
      element("cac:PaymentTerms", [text("Note", isCredit ? undefined : `To be paid by ${bill.due}`)]),
      taxOf(bill),
      totalsOf(bill),
      ...bill.lines.map((line, index) => lineOf(line, index, bill)),
    ],
    {
      xmlns: `${UBL}${name}-2`,
      "xmlns:cac": `${UBL}CommonAggregateComponents-2`,
      "xmlns:cbc": `${UBL}CommonBasicComponents-2`,
    },
  );
  if (root === undefined) throw new Error("writeUbl: an empty document");
  return root;
}

function amountOf(key: string, minor: Minor, { currency }: Bill): Element | undefined {
  return element(`cbc:${key}`, decimalText({ minor, currency }), { currencyID: currency });
}

function partyOf(party: Party, bill: Bill): Element | undefined {
  const [street, more, ...rest] = party.lines;
  const isOutside = bill.totals.groups.some(({ vat }) => vat.category === "O");
  const taxScheme = (id: string | undefined, scheme: string): Element | undefined =>
    id === undefined
      ? undefined
      : element("cac:PartyTaxScheme", [
          element("cbc:CompanyID", id),
          element("cac:TaxScheme", [element("cbc:ID", scheme)]),
        ]);
  return element("cac:Party", [
    element("cac:PartyName", [element("cbc:Name", party.name)]),
    element("cac:PostalAddress", [
      element("cbc:StreetName", street),
      element("cbc:AdditionalStreetName", more),
      element("cbc:CityName", party.town),
      element("cbc:PostalZone", party.postcode),
      element("cac:AddressLine", [element("cbc:Line", rest.length === 0 ? undefined : rest.join(", "))]),
      element("cac:Country", [element("cbc:IdentificationCode", party.country)]),
    ]),
    // What is outside the scope of the tax names no VAT identifier (BR-O-02 to BR-O-04).
    isOutside ? undefined : taxScheme(party.vatId, "VAT"),
    party === bill.seller ? taxScheme(party.taxNumber, "TAX") : undefined,
    element("cac:PartyLegalEntity", [
      element("cbc:RegistrationName", party.name),
      element("cbc:CompanyID", party === bill.seller ? bill.registration : undefined),
    ]),
    element("cac:Contact", [element("cbc:Telephone", party.phone), element("cbc:ElectronicMail", party.email)]),
  ]);
}

/** 58 is a SEPA credit transfer, 30 any other. @source UNCL 4461 */
function paymentOf({ bank, currency, kind, reference, number }: Bill): Element | undefined {
  if (bank === undefined || kind !== "invoice") return undefined;
  return element("cac:PaymentMeans", [
    element("cbc:PaymentMeansCode", currency === "EUR" ? "58" : "30"),
    element("cbc:PaymentID", reference ?? number),
    element("cac:PayeeFinancialAccount", [
      element("cbc:ID", bank.account),
      element("cbc:Name", bank.holder),
      element("cac:FinancialInstitutionBranch", [element("cbc:ID", bank.bic)]),
    ]),
  ]);
}

function taxOf(bill: Bill): Element | undefined {
  const { totals } = bill;
  return element("cac:TaxTotal", [
    amountOf("TaxAmount", totals.tax, bill),
    ...totals.groups.map(({ vat, taxable, tax }) =>
      element("cac:TaxSubtotal", [
        amountOf("TaxableAmount", taxable, bill),
        amountOf("TaxAmount", tax, bill),
        categoryOf("TaxCategory", vat, vat.reason),
      ]),
    ),
  ]);
}

function categoryOf(key: string, vat: VatRate, reason?: string): Element | undefined {
  return element(`cac:${key}`, [
    element("cbc:ID", vat.category),
    // Outside its scope there is no rate, not even zero (BR-O-05).
    element("cbc:Percent", vat.category === "O" ? undefined : percentText(vat)),
    element("cbc:TaxExemptionReason", reason),
    element("cac:TaxScheme", [element("cbc:ID", "VAT")]),
  ]);
}

function totalsOf(bill: Bill): Element | undefined {
  const { lines, net, gross, paid, rounded, due } = bill.totals;
  return element("cac:LegalMonetaryTotal", [
    amountOf("LineExtensionAmount", lines, bill),
    amountOf("TaxExclusiveAmount", net, bill),
    amountOf("TaxInclusiveAmount", gross, bill),
    paid === 0 ? undefined : amountOf("PrepaidAmount", paid, bill),
    rounded === 0 ? undefined : amountOf("PayableRoundingAmount", rounded, bill),
    amountOf("PayableAmount", due, bill),
  ]);
}

function lineOf({ says, quantity, unit, net, vat }: BillLine, index: number, bill: Bill): Element | undefined {
  const isCredit = bill.kind === "credit note";
  // A price is never below zero; what is taken back is a quantity below zero (BR-27).
  const signed = net < 0 ? -quantity : quantity;
  return element(isCredit ? "cac:CreditNoteLine" : "cac:InvoiceLine", [
    element("cbc:ID", String(index + 1)),
    element(isCredit ? "cbc:CreditedQuantity" : "cbc:InvoicedQuantity", String(signed), { unitCode: unit }),
    amountOf("LineExtensionAmount", net, bill),
    element("cac:Item", [element("cbc:Name", says), categoryOf("ClassifiedTaxCategory", vat)]),
    element("cac:Price", [
      amountOf("PriceAmount", Math.abs(net), bill),
      element("cbc:BaseQuantity", String(quantity), { unitCode: unit }),
    ]),
  ]);
}
