import { addDays } from "../day/index.ts";
import { type Checked, type Issue, IssueList, refuse } from "../issue/index.ts";
import { type Account, accountOf, type WorkedJob } from "../ledger/index.ts";
import {
  creditorReference,
  type Minor,
  minorOf,
  money,
  moneyText,
  netOfGross,
  type Party,
  shareOut,
  type Taxed,
  totalsOf,
} from "../money/index.ts";
import type { Letterhead, Trading } from "../remedy/index.ts";
import type { Bill, BillLine } from "./bill.ts";
import { agreedPrice, linesOfJob, type ToldLine } from "./told-lines.ts";

/** What only the caller knows: the next number of the series, and the day (ISO 8601). */
export interface Numbered {
  readonly number: string;
  readonly date: string;
}

/** Days that a quote holds: as long as the European repair information form asks. @source Directive (EU) 2024/1799, summaries read; clause not seen */
const QUOTE_DAYS = 30;

/** A quote for the choice that was offered last, or accepted; for what was done, where nothing was offered. */
export function quoteOf(worked: WorkedJob, numbered: Numbered): Checked<Bill> {
  const account = accountOf(worked.job);
  const offer = account.offered.at(-1);
  const quoted: Account =
    agreedPrice(account) !== undefined || offer === undefined || account.charges.length > 0
      ? account
      : { ...account, accepted: { choice: offer.choice, event: offer.event } };
  return billFrom("quote", worked, quoted, numbered);
}

/** The invoice of a job as its events stand now, less what was paid. */
export function invoiceOf(worked: WorkedJob, numbered: Numbered): Checked<Bill> {
  return billFrom("invoice", worked, accountOf(worked.job), numbered);
}

/**
 * A credit note that takes a whole invoice back, or an amount of it.
 *
 * @param asked.amount   in the currency, tax included; what is left of the invoice where not given. Shared over the tax groups by what each came to
 * @param asked.already  what earlier credit notes took back of it
 */
export function creditNoteOf(
  invoice: Bill,
  asked: Numbered & { readonly why: string; readonly amount?: number; readonly already?: Minor },
): Checked<Bill> {
  const { totals, currency, rounding } = invoice;
  const whole = totals.due + totals.paid;
  const left = whole - (asked.already ?? 0);
  const credited = asked.amount === undefined ? left : minorOf(asked.amount, currency);
  const issues = new IssueList();
  if (invoice.kind !== "invoice")
    issues.add(fault("credit.of", invoice.kind, "an invoice", "Only an invoice is credited."));
  if (credited <= 0 || credited > left)
    issues.add(
      fault(
        "credit.amount",
        moneyText(money(credited, currency)),
        `above 0, at most ${moneyText(money(left, currency))}`,
      ),
    );
  return issues.conclude(() => {
    const { of: _of, lines: _lines, totals: _totals, difference: _difference, ...rest } = invoice;
    const isWhole = credited === whole;
    const part = isWhole ? undefined : creditedPart(invoice, credited);
    const lines = part?.lines ?? invoice.lines;
    const difference = part?.difference ?? invoice.difference;
    // A part goes back to the penny, whatever coins the whole was paid in.
    const step = isWhole ? invoice.step : 1;
    return {
      ...rest,
      kind: "credit note",
      number: asked.number,
      date: asked.date,
      due: asked.date,
      of: { number: invoice.number, date: invoice.date, why: asked.why },
      lines,
      totals: totalsOf({ lines, difference, step, rounding }),
      difference,
      step,
    };
  });
}

function creditedPart(
  { totals, rounding, number }: Bill,
  credited: number,
): { readonly lines: readonly BillLine[]; readonly difference: number } {
  const grosses = totals.groups.map(({ taxable, tax }) => Math.max(0, taxable + tax));
  const shares = shareOut(credited, grosses);
  const agreed = totals.groups.map(({ vat }, index) => ({ gross: shares[index] as number, vat }));
  const { lines, difference } = netOfGross(agreed, rounding);
  return {
    lines: lines.map((line, index) => ({
      says: `part of invoice ${number}`,
      quantity: 1,
      unit: "C62",
      told: shares[index] as number,
      ...line,
    })),
    difference,
  };
}

function billFrom(kind: "quote" | "invoice", worked: WorkedJob, account: Account, numbered: Numbered): Checked<Bill> {
  const { shop, job, sheet } = worked;
  const { trading, letterhead } = shop;
  const buyer = account.payer ?? account.customer;
  const issues = new IssueList();
  if (trading === undefined)
    issues.add(
      fault("bill.no-trading", `cost file ${shop.id}`, "trading: what the shop agrees", "Add it to the file."),
    );
  if (letterhead === undefined)
    issues.add(
      fault("bill.no-letterhead", `cost file ${shop.id}`, "letterhead: who the shop is", "Add it to the file."),
    );
  if (buyer === undefined)
    issues.add(
      fault(
        "bill.no-customer",
        `job ${job.id}`,
        "customer: {name: ...}",
        "Add the event customer, with name and address.",
      ),
    );
  if (trading === undefined || letterhead === undefined || buyer === undefined) return refuse(...issues.all);
  const told = linesOfJob(worked, account, trading);
  if (told.length === 0) issues.add(fault("bill.empty", `job ${job.id}`, "something to be paid for"));
  return issues.conclude(() => {
    const paid =
      kind === "quote" ? 0 : account.paid.reduce((sum, one) => sum + minorOf(one.amount, trading.currency), 0);
    return {
      kind,
      ...numbered,
      due: addDays(numbered.date, kind === "quote" ? QUOTE_DAYS : trading.dueDays),
      job: job.id,
      subject: job.complaint === "" ? sheet.title : `${sheet.title}: ${job.complaint}`,
      ...whoIsWho(letterhead, buyer, account),
      ...summed(told, trading, paid),
      ...(kind === "quote" ? {} : referenceOf(numbered.number)),
    };
  });
}

function whoIsWho({ party, bank, registration }: Letterhead, buyer: Party, { customer, payer }: Account) {
  return {
    seller: party,
    ...(registration === undefined ? {} : { registration }),
    ...(bank === undefined ? {} : { bank }),
    buyer,
    ...(payer === undefined || customer === undefined ? {} : { occupant: customer }),
  };
}

function summed(told: readonly ToldLine[], { currency, withTax, rounding, step }: Trading, paid: number) {
  const amounts = told.map(({ amount }) => minorOf(amount, currency));
  const nets: { readonly lines: readonly Taxed[]; readonly difference: number } = withTax
    ? netOfGross(
        told.map(({ vat }, index) => ({ gross: amounts[index] as number, vat })),
        rounding,
      )
    : { lines: told.map(({ vat }, index) => ({ net: amounts[index] as number, vat })), difference: 0 };
  const lines = told.map(
    ({ says, quantity, unit }, index): BillLine => ({
      says,
      quantity,
      unit,
      told: amounts[index] as number,
      ...(nets.lines[index] as Taxed),
    }),
  );
  const { difference } = nets;
  const totals = totalsOf({ lines, paid, step, difference, rounding });
  return { currency, lines, totals, difference, rounding, step, withTax };
}

function referenceOf(number: string): { readonly reference?: string } {
  const reference = creditorReference(number);
  return reference === undefined ? {} : { reference };
}

function fault(code: string, found: string, expected: string, hint?: string): Issue {
  return { code, severity: "error", at: [], found, expected, ...(hint === undefined ? {} : { hint }) };
}
