import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { type Command, Option } from "commander";
import {
  type Bill,
  billText,
  creditNoteOf,
  invoiceOf,
  keptBill,
  paymentQr,
  quoteOf,
  writeUbl,
} from "../../../core/bill/index.ts";
import { accountOf, type WorkedJob } from "../../../core/ledger/index.ts";
import { decimalText } from "../../../core/money/index.ts";
import type { Rated } from "../../../core/quantity/index.ts";
import { billInWords } from "../../words/bill.ts";
import { amountOption } from "../amount-option.ts";
import { dayOption } from "../day-option.ts";
import { openJob } from "../open-job.ts";
import { need, print, printJson, Refused } from "../outcome.ts";

const KINDS = ["quote", "invoice", "credit-note"] as const;

interface BillOptions {
  readonly kind: (typeof KINDS)[number];
  readonly number: string;
  readonly date: string;
  readonly of?: string;
  readonly why?: string;
  readonly amount?: Rated;
  readonly ubl?: string;
  readonly json?: true;
}

/** Quote, invoice or credit note of a job, from what its events tell. */
export function addBill(program: Command): void {
  program
    .command("bill <JOB>")
    .description("quote, invoice or credit note of a job, from what its events tell; as UBL for businesses")
    .addOption(new Option("--kind <kind>", "which paper").choices(KINDS).default("invoice"))
    .requiredOption("--number <number>", "the next one of its series")
    .addOption(dayOption("day of the paper"))
    .option("--of <number>", "credit-note: the invoice that it takes back, as the job's events keep it")
    .option("--why <words>", "credit-note: the reason")
    .addOption(
      amountOption("--amount <money>", "credit-note: a part of the invoice, tax included; all unless told", "1"),
    )
    .option("--ubl <file>", "write the electronic invoice (UBL 2.1, EN 16931) there")
    .option("--json", "for programs; with the hash, and the event to keep")
    .addHelpText(
      "after",
      `
Example:
  faultwright bill my-job.yaml --kind invoice --number F-0007 --date 2026-03-04

It prints the event to write into the job file when the paper is handed over; from then on it is kept as it was.
`,
    )
    .action((file: string, options: BillOptions) => {
      const worked = openJob(file);
      const bill = billOf(worked, options);
      const content = billText(bill);
      const hash = createHash("sha256").update(content).digest("hex");
      const sign = bill.kind === "credit note" ? -1 : 1;
      const total = Number(decimalText({ minor: sign * bill.totals.due, currency: bill.currency }));
      const { kind: paper, number, date, of } = bill;
      const event = {
        issued: { paper, number, date, ...(of === undefined ? {} : { of: of.number }), total, hash, content },
      };
      if (options.ubl !== undefined) writeFileSync(options.ubl, need(writeUbl(bill), file));
      if (options.json === true)
        printJson({ format: "faultwright-bill/1", bill, hash, event, paymentQr: paymentQr(bill) });
      else print([...billInWords(bill), "", "Write, when it is handed over:", `  - ${JSON.stringify(event)}`]);
    });
}

function billOf(worked: WorkedJob, { kind, number, date, of, why, amount }: BillOptions): Bill {
  if (kind === "quote") return need(quoteOf(worked, { number, date }));
  if (kind === "invoice") return need(invoiceOf(worked, { number, date }));
  const kept = accountOf(worked.job).issued.find((paper) => paper.paper === "invoice" && paper.number === of);
  if (kept?.content === undefined) throw refusal("--of", of, "an invoice that the job's events keep with its content");
  if (why === undefined) throw refusal("--why", why, "the reason of the credit note");
  if (kept.hash !== undefined && kept.hash !== createHash("sha256").update(kept.content).digest("hex"))
    throw refusal("--of", of, "an invoice whose content still has its hash");
  const part = amount === undefined ? {} : { amount: amount.nominal };
  return need(creditNoteOf(need(keptBill(kept.content)), { number, date, why, ...part }));
}

function refusal(option: string, found: string | undefined, expected: string): Refused {
  const issue = { code: "bill.option", severity: "error", at: [option], found: found ?? "nothing", expected } as const;
  return new Refused([issue]);
}
