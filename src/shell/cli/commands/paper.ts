import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { type Command, Option } from "commander";
import { type Bill, keptBill, paymentQr, standingInvoices, writeUbl } from "../../../core/bill/index.ts";
import { accept, type Checked } from "../../../core/issue/index.ts";
import { accountOf, closeOutOf, closingOf, type IssuedPaper, type WorkedJob } from "../../../core/ledger/index.ts";
import {
  issuedPaper,
  type JobPaperKind,
  keptPaper,
  type MadePaper,
  makePaper,
  PAPER_KINDS,
  paperFacts,
} from "../../../core/paper/index.ts";
import type { Rated } from "../../../core/quantity/index.ts";
import type { Drawing } from "../../paper/drawing.ts";
import { paperAsHtml } from "../../paper/html-paper.ts";
import { paperAsText } from "../../paper/text-paper.ts";
import { amountOption } from "../amount-option.ts";
import { dayOption } from "../day-option.ts";
import { readText } from "../files.ts";
import { openJob } from "../open-job.ts";
import { need, print, printJson, Refused } from "../outcome.ts";
import { chosenRules, knownRules } from "./job-safety.ts";

interface PaperOptions {
  readonly kind: JobPaperKind;
  readonly number?: string;
  readonly date?: string;
  readonly of?: string;
  readonly why?: string;
  readonly amount?: Rated;
  readonly anew?: true;
  readonly issue?: true;
  readonly pdf?: string;
  readonly html?: string;
  readonly ubl?: string;
  readonly json?: true;
  readonly letter?: true;
  readonly logo?: string;
}

/** A paper of a job: as it was handed over, or as the job's events stand now. */
export function addPaper(program: Command): void {
  const kinds = PAPER_KINDS.filter((kind) => kind !== "tag");
  program
    .command("paper")
    .description("quote, job report, safety record, invoice and the other papers of a job, from its events alone")
    .argument("<job>", "a job file")
    .addOption(new Option("--kind <kind>", "which paper").choices(kinds).makeOptionMandatory())
    .option("--number <number>", "of a quote, an invoice or a credit note: the next of its series")
    .addOption(dayOption("day of the paper").default(undefined, "the job's own"))
    .option("--of <number>", "of a credit note: the invoice that it takes back; the last where not given")
    .option("--why <reason>", "of a credit note: why the invoice is taken back")
    .addOption(
      amountOption(
        "--amount <money>",
        "of a credit note: a part of the invoice, tax included; all that is left unless told",
        "1",
      ),
    )
    .option("--anew", "as the events stand now, though one was handed over before")
    .option("--issue", "print the event that keeps it in the job as it is handed over, with its hash")
    .option("--pdf <file>", "write a PDF")
    .option("--html <file>", "write one HTML file, for e-mail and print")
    .option("--ubl <file>", "write the electronic invoice (UBL 2.1, EN 16931) there")
    .option("--json", "for programs: docs/json.md")
    .option("--letter", "on Letter instead of A4")
    .option("--logo <svg>", "the shop's own mark: an SVG file")
    .addHelpText(
      "after",
      `
Examples:
  faultwright paper examples/closed/dryer-mended.yaml --kind report
  faultwright paper examples/closed/dryer-paid.yaml --kind invoice --pdf invoice.pdf --ubl invoice.xml
  faultwright paper examples/closed/dryer-mended.yaml --kind invoice --number F-0008 --issue
`,
    )
    .action(async (file: string, options: PaperOptions) => {
      const { pdf, html, ubl, logo } = options;
      const drawing: Drawing = {
        size: options.letter === true ? "LETTER" : "A4",
        ...(logo === undefined ? {} : { logo: need(readText(logo)) }),
      };
      const worked = openJob(file);
      if (options.issue === true) return print(`  - issued: ${JSON.stringify(issuedOf(worked, file, options))}`);
      const made = handedOver(worked, file, options) ?? madePaper(worked, file, options);
      if (html !== undefined) writeFileSync(html, paperAsHtml(made.paper, drawing));
      if (pdf !== undefined) {
        // The fonts and the library are large: loaded only where a PDF is asked for.
        const { paperAsPdf } = await import("../../paper/pdf-paper.ts");
        writeFileSync(pdf, await paperAsPdf(made.paper, drawing));
      }
      if (ubl !== undefined) writeFileSync(ubl, need(writeUbl(billIn(made, options.kind)), file));
      if (options.json === true) return printJson(forPrograms(worked, made));
      if (pdf === undefined && html === undefined && ubl === undefined) print(paperAsText(made.paper));
    });
}

/** The paper as it was handed over; none where none was, or where it is asked for anew. */
function handedOver(worked: WorkedJob, file: string, { kind, number, anew }: PaperOptions): MadePaper | undefined {
  if (anew === true) return undefined;
  const issued = accountOf(worked.job).issued.findLast(
    (one) => one.paper === kind && one.content !== undefined && (number === undefined || one.number === number),
  );
  if (issued?.content === undefined) return undefined;
  const { content, total } = issued;
  return { paper: need(keptPaper(issued, sha256), file), content, ...(total === undefined ? {} : { total }) };
}

function madePaper(worked: WorkedJob, file: string, options: PaperOptions): MadePaper {
  const { kind, number, why, of, amount } = options;
  const day = options.date ?? worked.job.date;
  if (day === undefined) throw refusal("paper.date", "--date", "no day", "--date 2026-03-04, or `date:` in the job");
  if (kind === "credit note") need(unchanged(worked, of), file);
  const closing = closingOf(worked, knownRules);
  const rules = chosenRules(closing, file);
  const out = closeOutOf(worked, closing, rules);
  const numbered = { date: day, ...(number === undefined ? {} : { number }) };
  const facts = paperFacts(worked, { closing, out, ...(rules === undefined ? {} : { rules }) }, numbered);
  const credit = {
    ...(why === undefined ? {} : { why }),
    ...(of === undefined ? {} : { of }),
    ...(amount === undefined ? {} : { amount: amount.nominal }),
  };
  return need(makePaper(kind, facts, credit), file);
}

/** The invoice that is credited, which must be the one that was handed over. */
function unchanged(worked: WorkedJob, of: string | undefined): Checked<unknown> {
  const issued = accountOf(worked.job).issued.findLast(
    ({ paper, number }) => paper === "invoice" && (of === undefined || of === number),
  );
  return issued === undefined ? accept(undefined) : keptPaper(issued, sha256);
}

/** What is kept of a paper that is handed over now. One invoice at a time: another asks for the same work twice. */
function issuedOf(worked: WorkedJob, file: string, options: PaperOptions): IssuedPaper {
  const { trading } = worked.shop;
  const [stands] = trading === undefined ? [] : standingInvoices(accountOf(worked.job), trading.currency);
  if (options.kind === "invoice" && stands !== undefined)
    throw refusal(
      "paper.stands",
      "--issue",
      `invoice ${stands.issued.number}`,
      "a credit note that takes it back first",
    );
  return issuedPaper(worked, madePaper(worked, file, options), sha256);
}

function billIn({ content }: MadePaper, kind: string): Bill {
  if (kind === "invoice" || kind === "credit note") return need(keptBill(content));
  throw refusal("paper.no-bill", "--ubl", kind, "an invoice or a credit note");
}

function forPrograms(worked: WorkedJob, made: MadePaper) {
  const bill = keptBill(made.content);
  return {
    format: "faultwright-paper/1",
    paper: made.paper,
    event: { issued: issuedPaper(worked, made, sha256) },
    ...(bill.ok ? { bill: bill.value, paymentQr: paymentQr(bill.value) ?? null } : {}),
  };
}

function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}

function refusal(code: string, option: string, found: string, expected: string): Refused {
  return new Refused([{ code, severity: "error", at: [option], found, expected }]);
}
