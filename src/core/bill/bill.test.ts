import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { must, workedBranch } from "../../../test/machines/branch-job.ts";
import { accountOf, type WorkedJob } from "../ledger/index.ts";
import { type Bill, billText, creditNoteOf, invoiceOf, keptBill, paymentQr, quoteOf } from "./index.ts";

const WHO = "  - customer: {name: A. Sample, lines: [7 Mill Row], town: Ostermoor, country: DE}\n";
const MENDED = `${WHO}  - did: {remedy: fit a new heater, on: heater, worked: yes, price: 80}\n`;
const NUMBERED = { number: "F-0007", date: "2026-03-04" };

const invoice = (events: string): Bill => must(invoiceOf(workedBranch(events), NUMBERED));
const told = (bill: Bill) => bill.lines.map(({ says, told }) => [says, told]);
const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);

describe("an invoice", () => {
  test("of a job mended asks for the call-out, the work by its minutes and the part, tax included", () => {
    const bill = invoice(MENDED);
    expect(told(bill)).toEqual([
      ["call-out", 4500],
      ["work: heater, fit a new heater", 2400],
      ["part: heater", 8000],
    ]);
    // 149.00 at 19 %: 125.21 and 23.79
    expect([bill.totals.net, bill.totals.tax, bill.totals.due]).toEqual([12521, 2379, 14900]);
    expect(bill).toMatchObject({ due: "2026-03-18", reference: expect.stringMatching(/^RF\d\dF0007$/) });
  });

  test("of a job that stopped asks for the call-out and for finding the fault", () => {
    expect(told(invoice(WHO))).toEqual([
      ["call-out", 4500],
      ["finding the fault", 3900],
    ]);
  });

  test("comes to the price that was accepted, its pieces told; parts paid beforehand are taken off", () => {
    const bill = invoice(
      `${MENDED}  - offered: [{choice: h, says: a new heater, price: 180}]\n  - accepted: h\n  - paid: 40\n`,
    );
    expect(told(bill)).toEqual([
      ["call-out", 4500],
      ["part: heater", 8000],
      ["work: heater, fit a new heater", 5500],
    ]);
    expect([bill.totals.gross, bill.totals.paid, bill.totals.due]).toEqual([18000, 4000, 14000]);
  });

  test("agreed below the sum of its pieces is told as one line", () => {
    const bill = invoice(`${MENDED}  - offered: [{choice: h, says: a new heater, price: 99}]\n  - accepted: h\n`);
    expect(told(bill)).toEqual([["a new heater", 9900]]);
  });

  test("is made of the lines that somebody wrote, where there are any, each with its own tax", () => {
    const lines = `${MENDED}  - charged: {what: work, says: belt, amount: 107, vat: 7}
  - charged: {what: discount, says: a neighbour, amount: -10}\n`;
    const bill = invoice(lines);
    expect(bill.totals.groups.map(({ vat, taxable, tax }) => [vat.hundredths, taxable, tax])).toEqual([
      [1900, -840, -160],
      [700, 10000, 700],
    ]);
    expect(bill.totals.due).toBe(9700);
  });

  test("goes to the payer where that is not the customer, who is named", () => {
    const bill = invoice(`${MENDED}  - payer: {name: Ostermoor Lettings, country: DE}\n`);
    expect([bill.buyer.name, bill.occupant?.name]).toEqual(["Ostermoor Lettings", "A. Sample"]);
  });

  test("without a customer, and of a shop that tells neither tax nor letterhead, is refused with all of it", () => {
    const worked = workedBranch("");
    const { trading: _trading, letterhead: _letterhead, ...shop } = worked.shop;
    const bare: WorkedJob = { ...worked, shop };
    const refused = invoiceOf(bare, NUMBERED);
    expect(refused.ok ? [] : refused.issues.map(({ code }) => code)).toEqual([
      "bill.no-trading",
      "bill.no-letterhead",
      "bill.no-customer",
    ]);
  });

  test("asked for twice is the same, to the byte, and is read back as it was kept", () => {
    expect(billText(invoice(MENDED))).toBe(billText(invoice(MENDED)));
    expect(must(keptBill(billText(invoice(MENDED))))).toEqual(invoice(MENDED));
  });

  test("whose kept text was changed is not read", () => {
    const changed = billText(invoice(MENDED)).replace('"due":14900', '"due":1490');
    for (const text of [changed, "{}", "no bill", ""]) expect(keptBill(text).ok).toBe(false);
  });

  test("later events change a later invoice and leave the one handed over as it was", () => {
    const content = billText(invoice(MENDED));
    const issued = `  - issued: ${JSON.stringify({ paper: "invoice", ...NUMBERED, content })}\n`;
    const later = workedBranch(`${MENDED}${issued}  - withdraws: 2\n`);
    expect(accountOf(later.job).issued.map((paper) => paper.content)).toEqual([content]);
    expect(billText(must(invoiceOf(later, NUMBERED)))).not.toBe(content);
  });
});

describe("a quote", () => {
  test("is for what was offered last until something is accepted, and holds thirty days", () => {
    const offers = `${WHO}  - offered: [{choice: a, says: clean it, price: 90}, {choice: b, says: a new one, price: 180}]\n`;
    const of = (events: string) => must(quoteOf(workedBranch(events), { number: "Q-1", date: "2026-03-04" }));
    expect([of(offers).totals.due, of(`${offers}  - accepted: a\n`).totals.due]).toEqual([18000, 9000]);
    expect(of(offers)).toMatchObject({ due: "2026-04-03" });
    expect(of(offers).reference).toBeUndefined();
  });
});

describe("a credit note", () => {
  const back = { number: "G-0001", date: "2026-03-10", why: "the heater failed again" };

  test("takes the whole invoice back, what was paid with it", () => {
    const bill = invoice(`${MENDED}  - paid: 100\n`);
    const note = must(creditNoteOf(bill, back));
    expect(note.totals.due).toBe(bill.totals.gross);
    expect(note.of).toEqual({ number: "F-0007", date: "2026-03-04", why: "the heater failed again" });
  });

  test("of an amount is that amount, shared over the tax groups, and never more than the invoice", () => {
    const bill = invoice(
      `${WHO}  - charged: {what: work, says: a, amount: 119}\n  - charged: {what: part, says: b, amount: 53.5, vat: 7}\n`,
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 17250 }), (minor) => {
        const note = must(creditNoteOf(bill, { ...back, amount: minor / 100 }));
        expect(note.totals.due).toBe(minor);
        expect(sum(note.totals.groups.map(({ taxable, tax }) => taxable + tax)) + note.totals.rounded).toBe(minor);
      }),
    );
    for (const amount of [0, -1, 172.51]) expect(creditNoteOf(bill, { ...back, amount }).ok).toBe(false);
  });

  test("credits no quote and no credit note", () => {
    const note = must(creditNoteOf(invoice(MENDED), back));
    expect(creditNoteOf(note, back).ok).toBe(false);
  });
});

describe("the payment code", () => {
  test("holds eleven lines of EPC069-12, the last ones only where there is something to say", () => {
    const bill = invoice(MENDED);
    expect(paymentQr(bill)?.split("\n")).toEqual([
      "BCD",
      "002",
      "1",
      "SCT",
      "",
      "Ferrybank workshop",
      "DE71110220330123456789",
      "EUR149.00",
      "",
      bill.reference,
    ]);
  });

  test("stands on no bill in pounds, none without an account, none of nothing, and no credit note", () => {
    const bill = invoice(MENDED);
    const { bank: _bank, ...noAccount } = bill;
    expect(paymentQr({ ...bill, currency: "GBP" })).toBeUndefined();
    expect(paymentQr(noAccount)).toBeUndefined();
    expect(paymentQr({ ...bill, totals: { ...bill.totals, due: 0 } })).toBeUndefined();
    expect(paymentQr({ ...bill, kind: "credit note" })).toBeUndefined();
  });

  test("is never longer than 331 bytes, whoever holds the account", () => {
    const bill = invoice(MENDED);
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 90 }), (holder) => {
        const payload = paymentQr({ ...bill, bank: { holder, account: "DE71110220330123456789" } });
        expect(payload === undefined ? 0 : Buffer.byteLength(payload, "utf8")).toBeLessThanOrEqual(331);
        expect(payload === undefined ? 10 : payload.split("\n").length).toBe(10);
      }),
    );
  });
});
