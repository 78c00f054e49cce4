import type { Account } from "../ledger/index.ts";
import { type Currency, type Minor, minorOf } from "../money/index.ts";

type Issued = Account["issued"][number];

/** An invoice that was handed over, and what no credit note has taken back of it. */
export interface StandingInvoice {
  readonly issued: Issued;
  readonly credited: Minor;
  readonly left: Minor;
}

/** The invoices of a job that still ask for something, in the order in which they were handed over. */
export function standingInvoices({ issued }: Account, currency: Currency): readonly StandingInvoice[] {
  return issued.flatMap((invoice) => {
    if (invoice.paper !== "invoice") return [];
    const credited = creditedOf(issued, invoice.number, currency);
    const left = totalOf(invoice, currency) - credited;
    return left > 0 ? [{ issued: invoice, credited, left }] : [];
  });
}

/** What credit notes took back of an invoice. */
export function creditedOf(issued: readonly Issued[], number: string, currency: Currency): Minor {
  const notes = issued.filter(({ paper, of }) => paper === "credit note" && of === number);
  return notes.reduce((sum, note) => sum - totalOf(note, currency), 0);
}

/** What the papers of a job ask for together, what was paid, and what is left; below zero is to be paid back. */
export interface Balance {
  readonly asked: Minor;
  readonly paid: Minor;
  readonly due: Minor;
}

export function balanceOf({ issued, paid }: Account, currency: Currency): Balance {
  const asked = issued.reduce((sum, one) => sum + totalOf(one, currency), 0);
  const given = paid.reduce((sum, { amount }) => sum + minorOf(amount, currency), 0);
  return { asked, paid: given, due: asked - given };
}

/** A quote and a report ask for nothing, and so does a paper that was written down without its total. */
function totalOf({ paper, total }: Issued, currency: Currency): Minor {
  return total === undefined || (paper !== "invoice" && paper !== "credit note") ? 0 : minorOf(total, currency);
}
