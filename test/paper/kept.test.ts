import fc from "fast-check";
import { expect, test } from "vitest";
import { balanceOf, billText, creditNoteOf, invoiceOf, keptBill, standingInvoices } from "../../src/core/bill/index.ts";
import {
  accountOf,
  closeOutOf,
  closingOf,
  type LedgerEvent,
  readJob,
  recordOf,
  writtenJob,
} from "../../src/core/ledger/index.ts";
import { issuedPaper, keptPaper, makePaper, paperFacts, paperOffers } from "../../src/core/paper/index.ts";
import { branchJob, must, workedBranch } from "../machines/branch-job.ts";
import { closedJob, rulesOf, sha256 } from "./samples.ts";

const ground = workedBranch("");
const closing = closingOf(ground, rulesOf);
const out = closeOutOf(ground, closing, undefined);

/** What may be written after an invoice, by an honest person or a careless one. */
type Act =
  | { readonly is: "write"; readonly kind: string; readonly body: unknown }
  | { readonly is: "take back"; readonly which: number }
  | { readonly is: "hand over" };

const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({ is: fc.constant("take back" as const), which: fc.nat(40) }),
  fc.record({ is: fc.constant("hand over" as const) }),
  fc.oneof(
    fc.record({
      is: fc.constant("write" as const),
      kind: fc.constant("charged"),
      body: fc.record({
        what: fc.constant("part"),
        says: fc.constantFrom("a heater", "a belt"),
        amount: fc.integer({ min: 1, max: 99_999 }).map((pence) => pence / 100),
      }),
    }),
    fc.record({
      is: fc.constant("write" as const),
      kind: fc.constant("paid"),
      body: fc.integer({ min: 1, max: 9_999 }).map((pence) => pence / 100),
    }),
    fc.record({
      is: fc.constant("write" as const),
      kind: fc.constant("customer"),
      body: fc.record({ name: fc.constantFrom("A. Sample", "B. Sample"), lines: fc.constant(["7 Mill Row"]) }),
    }),
  ),
);

test("a correction changes later papers and never earlier ones: 300 drawn ledgers", () => {
  let handedOver = 0;
  let corrected = 0;
  fc.assert(
    fc.property(fc.array(act, { minLength: 3, maxLength: 14 }), (acts) => {
      const events: LedgerEvent[] = [];
      const write = (kind: string, body: unknown): void => {
        const id = String(events.length).padStart(3, "0");
        events.push({ id, job: "j", time: "2026-03-04T10:00:00Z", device: "d", person: "", kind, body });
      };
      const now = () => {
        const record = recordOf(events);
        if (record === undefined) throw new Error("no job");
        return { ...ground, job: must(readJob(writtenJob(record).text)) };
      };
      const kept = new Map<string, string>();
      write("begins", { number: "1", branch: ["plug", "cord"], complaint: "dead" });
      write("customer", { name: "A. Sample", lines: [] });
      write("charged", { what: "work", says: "work", amount: 50 });
      for (const one of acts) {
        if (one.is === "write") write(one.kind, one.body);
        // The event that begins the job stays: without it there is no job.
        else if (one.is === "take back") write("withdraws", String(1 + (one.which % events.length)).padStart(3, "0"));
        else {
          const worked = now();
          const numbered = { number: `F-${events.length}`, date: "2026-03-04" };
          const made = makePaper("invoice", paperFacts(worked, { closing, out }, numbered));
          if (!made.ok) continue;
          const event = issuedPaper(worked, made.value, sha256);
          write("issued", event);
          kept.set(event.number, JSON.stringify(made.value.paper));
        }
        const account = accountOf(now().job);
        // Every paper that was ever handed over is there, sign for sign.
        expect(account.issued.map(({ number }) => number)).toEqual([...kept.keys()]);
        for (const issued of account.issued)
          expect(JSON.stringify(must(keptPaper(issued, sha256)))).toBe(kept.get(issued.number));
        const { asked, paid, due } = balanceOf(account, "EUR");
        expect(asked).toBe(standingInvoices(account, "EUR").reduce((sum, { left }) => sum + left, 0));
        expect(due).toBe(asked - paid);
      }
      handedOver += kept.size;
      // One more line, and the next invoice is another than the last.
      const before = invoiceOf(now(), { number: "N", date: "2026-03-05" });
      write("charged", { what: "part", says: "a filter", amount: 7 });
      const after = invoiceOf(now(), { number: "N", date: "2026-03-05" });
      if (before.ok && after.ok && kept.size > 0) {
        corrected++;
        expect(after.value.totals.gross).not.toBe(before.value.totals.gross);
      }
    }),
    { numRuns: 300, seed: 4 },
  );
  expect(handedOver).toBeGreaterThan(200);
  expect(corrected).toBeGreaterThan(100);
});

test("the example job ends with an invoice that is as it was handed over, and paid", () => {
  const job = must(readJob(closedJob("dryer-paid")));
  const account = accountOf(job);
  const [invoice] = account.issued;
  if (invoice === undefined) throw new Error("no invoice");
  expect(must(keptPaper(invoice, sha256))).toMatchObject({ kind: "invoice", number: "F-0008" });
  expect(balanceOf(account, "EUR")).toEqual({ asked: 12800, paid: 12800, due: 0 });
  expect(account).toMatchObject({ fees: { callOut: 45, diagnosis: 39 }, limit: { amount: 200 } });
});

test("of each paper a job tells whether it can have it, or what is missing", () => {
  const offers = (...events: string[]) => {
    const worked = { ...ground, job: must(readJob(branchJob(events.map((event) => `  - ${event}\n`).join("")))) };
    const facts = paperFacts(worked, { closing, out }, { date: "2026-03-04" });
    return Object.fromEntries(paperOffers(facts).map(({ kind, why }) => [kind, why ?? "yes"]));
  };
  const none = { safety: "no tests", guarantee: "not mended", notice: "no notice", claim: "no measured part" };
  expect(offers()).toEqual({
    ...none,
    quote: "no customer",
    invoice: "no customer",
    "credit note": "no invoice",
    report: "yes",
    "repair form": "yes",
  });
  const CUSTOMER = "customer: {name: A. Sample}";
  expect(offers(CUSTOMER)).toMatchObject({ quote: "yes", invoice: "yes", "credit note": "no invoice" });
  const issued = 'issued: {paper: invoice, number: F-1, date: 2026-03-04, total: 84, content: "{}"}';
  expect(offers(CUSTOMER, issued)).toMatchObject({ quote: "yes", invoice: "invoice stands", "credit note": "yes" });
  const back = "issued: {paper: credit note, number: G-1, date: 2026-03-05, of: F-1, total: -84}";
  expect(offers(CUSTOMER, issued, back)).toMatchObject({ invoice: "yes", "credit note": "no invoice" });
});

test.each([
  ["EUR", 1],
  ["CHF", 5],
] as const)(
  "an invoice in %s taken back in two parts goes back whole, and both notes are read back: 200 drawn",
  (currency, step) => {
    const { shop } = ground;
    if (shop.trading === undefined) throw new Error("no trading");
    const ours = { ...shop, currency, trading: { ...shop.trading, currency, step } };
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 90_000 }), fc.constantFrom(7.7, 19)), {
          minLength: 1,
          maxLength: 5,
        }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (lines, share) => {
          const charges = lines.map(
            ([pence, percent]) =>
              `  - charged: {what: part, says: a part, amount: ${pence / 100}, vat: {category: S, percent: ${percent}}}\n`,
          );
          const job = must(readJob(branchJob(`  - customer: {name: A. Sample}\n${charges.join("")}`)));
          const invoice = must(invoiceOf({ ...ground, shop: ours, job }, { number: "F-1", date: "2026-03-04" }));
          const whole = invoice.totals.due;
          const part = Math.floor(whole * share);
          if (part < 1) return;
          const asked = { number: "C-1", date: "2026-03-05", why: "a test" };
          const first = must(creditNoteOf(invoice, { ...asked, amount: part / 100 }));
          const rest = must(creditNoteOf(invoice, { ...asked, number: "C-2", already: part }));
          expect(first.totals.due).toBe(part);
          expect(first.totals.due + rest.totals.due).toBe(whole);
          for (const note of [first, rest]) expect(must(keptBill(billText(note)))).toEqual(note);
          expect(creditNoteOf(invoice, { ...asked, already: whole }).ok).toBe(false);
        },
      ),
      { numRuns: 200, seed: 6 },
    );
  },
);
