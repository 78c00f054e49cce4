import { creditedOf, creditNoteOf, invoiceOf, keptBill, quoteOf } from "../bill/index.ts";
import { accept, type Checked, type Issue, refuse } from "../issue/index.ts";
import { guaranteeOf } from "./guarantee.ts";
import { type MadePaper, madeOfBill, madeOfPaper } from "./kept-paper.ts";
import type { Paper, PaperKind } from "./paper.ts";
import type { PaperFacts } from "./paper-facts.ts";
import { repairFormOf } from "./repair-form.ts";
import { reportOf } from "./report.ts";
import { safetyRecordOf } from "./safety-record.ts";
import { supplierClaimOf } from "./supplier-claim.ts";
import { unsafeNoticeOf } from "./unsafe-notice.ts";

/** Kinds that bear a number of a series. */
const NUMBERED: ReadonlySet<PaperKind> = new Set(["quote", "invoice", "credit note"]);

/** A paper of a job; a tag is one of a part. */
export type JobPaperKind = Exclude<PaperKind, "tag">;

/** What a credit note takes back. */
export interface Credit {
  readonly why?: string;
  /** In the currency, tax included; all that is left of the invoice where not given. */
  readonly amount?: number;
  /** Number of the invoice; the last where not given. */
  readonly of?: string;
}

/**
 * Makes a paper of a job as its events stand now. The same events give the same paper, byte for byte.
 *
 * @returns the paper, or why there is none
 */
export function makePaper(kind: JobPaperKind, facts: PaperFacts, credit: Credit = {}): Checked<MadePaper> {
  const { worked, date, number } = facts;
  if (NUMBERED.has(kind) && number === undefined)
    return refuse(fault("paper.number", `no number for a ${kind}`, "the next number of its series"));
  const numbered = { number: number ?? "", date };
  switch (kind) {
    case "report":
      return accept(madeOfPaper(reportOf(facts)));
    case "safety":
      return accept(madeOfPaper(safetyRecordOf(facts)));
    case "quote":
      return mapped(quoteOf(worked, numbered), madeOfBill);
    case "invoice":
      return mapped(invoiceOf(worked, numbered), madeOfBill);
    case "credit note":
      return creditNote(facts, numbered, credit);
    case "guarantee":
      return found(
        guaranteeOf(facts),
        kind,
        "a repair that held, a job that may be closed, and months in the cost file",
      );
    case "notice":
      return found(unsafeNoticeOf(facts), kind, "an event `notice`: what was found, done, and how it ended");
    case "claim":
      return found(supplierClaimOf(facts), kind, "a part that was ordered, fitted, and measured since");
    case "repair form": {
      const quote = quoteOf(worked, { number: number ?? `${worked.job.id}-form`, date });
      return accept(madeOfPaper(repairFormOf(facts, quote.ok ? quote.value : undefined)));
    }
  }
}

/** Takes back an invoice that was handed over, or a part of it. */
function creditNote(
  { account }: PaperFacts,
  numbered: { readonly number: string; readonly date: string },
  { why, amount, of }: Credit,
): Checked<MadePaper> {
  const issued = account.issued.findLast(
    ({ paper, number }) => paper === "invoice" && (of === undefined || of === number),
  );
  if (issued?.content === undefined)
    return refuse(fault("paper.no-invoice", "no invoice with its content", "an event `issued` of an invoice"));
  if (why === undefined) return refuse(fault("paper.why", "no reason", "why the invoice is taken back"));
  const invoice = keptBill(issued.content);
  if (!invoice.ok) return invoice;
  const already = creditedOf(account.issued, issued.number, invoice.value.currency);
  const asked = { ...numbered, why, already, ...(amount === undefined ? {} : { amount }) };
  return mapped(creditNoteOf(invoice.value, asked), madeOfBill);
}

function found(paper: Paper | undefined, kind: PaperKind, expected: string): Checked<MadePaper> {
  return paper === undefined
    ? refuse(fault("paper.nothing", `nothing to make a ${kind} of`, expected))
    : accept(madeOfPaper(paper));
}

function mapped<T>(checked: Checked<T>, make: (value: T) => MadePaper): Checked<MadePaper> {
  return checked.ok ? accept(make(checked.value), checked.warnings) : checked;
}

function fault(code: string, found_: string, expected: string): Issue {
  return { code, severity: "error", at: [], found: found_, expected };
}
