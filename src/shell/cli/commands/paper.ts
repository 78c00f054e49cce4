import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { type Command, Option } from "commander";
import { accountOf, closeOutOf, closingOf, type WorkedJob } from "../../../core/ledger/index.ts";
import {
  keptPaper,
  type MadePaper,
  makePaper,
  PAPER_KINDS,
  type Paper,
  type PaperKind,
  paperFacts,
} from "../../../core/paper/index.ts";
import type { Drawing } from "../../paper/drawing.ts";
import { paperAsHtml } from "../../paper/html-paper.ts";
import { paperAsText } from "../../paper/text-paper.ts";
import { readText } from "../files.ts";
import { openJob } from "../open-job.ts";
import { need, print, Refused } from "../outcome.ts";
import { rulesOf } from "./job-safety.ts";

type JobPaper = Exclude<PaperKind, "tag">;

interface PaperOptions {
  readonly kind: JobPaper;
  readonly number?: string;
  readonly date?: string;
  readonly why?: string;
  readonly anew?: true;
  readonly issue?: true;
  readonly pdf?: string;
  readonly html?: string;
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
    .option("--date <day>", "2026-03-04; the job's own where not given")
    .option("--why <reason>", "of a credit note: why the invoice is taken back")
    .option("--anew", "as the events stand now, though one was handed over before")
    .option("--issue", "print the event that keeps it in the job as it is handed over, with its hash")
    .option("--pdf <file>", "write a PDF")
    .option("--html <file>", "write one HTML file, for e-mail and print")
    .option("--letter", "on Letter instead of A4")
    .option("--logo <svg>", "the shop's own mark: an SVG file")
    .addHelpText(
      "after",
      `
Examples:
  faultwright paper examples/closed/dryer-mended.yaml --kind report
  faultwright paper examples/closed/dryer-mended.yaml --kind invoice --number F-0007 --pdf invoice.pdf
`,
    )
    .action(async (file: string, options: PaperOptions) => {
      const { pdf, html, logo } = options;
      const drawing: Drawing = {
        size: options.letter === true ? "LETTER" : "A4",
        ...(logo === undefined ? {} : { logo: need(readText(logo)) }),
      };
      const worked = openJob(file);
      if (options.issue === true) return print(issuedEvent(worked, madePaper(worked, file, options)));
      const paper = handedOver(worked, file, options) ?? madePaper(worked, file, options).paper;
      if (html !== undefined) writeFileSync(html, paperAsHtml(paper, drawing));
      if (pdf !== undefined) {
        // The fonts and the library are large: loaded only where a PDF is asked for.
        const { paperAsPdf } = await import("../../paper/pdf-paper.ts");
        writeFileSync(pdf, await paperAsPdf(paper, drawing));
      }
      if (pdf === undefined && html === undefined) print(paperAsText(paper));
    });
}

/** The paper as it was handed over; none where none was, or where it is asked for anew. */
function handedOver(worked: WorkedJob, file: string, { kind, number, anew }: PaperOptions): Paper | undefined {
  if (anew === true) return undefined;
  const issued = accountOf(worked.job).issued.findLast(
    (one) => one.paper === kind && one.content !== undefined && (number === undefined || one.number === number),
  );
  return issued === undefined ? undefined : need(keptPaper(issued, sha256), file);
}

function madePaper(worked: WorkedJob, file: string, { kind, number, date, why }: PaperOptions): MadePaper {
  const day = date ?? worked.job.date;
  if (day === undefined || !/^\d{4}-\d{2}-\d{2}$/.test(day)) {
    const found = day === undefined ? "no day" : `"${day}"`;
    const expected = "--date 2026-03-04, or `date:` in the job";
    throw new Refused([{ code: "paper.date", severity: "error", file, at: ["--date"], found, expected }]);
  }
  const closing = closingOf(worked);
  const rules = rulesOf(closing, file);
  const out = closeOutOf(worked, closing, rules);
  const numbered = { date: day, ...(number === undefined ? {} : { number }) };
  const facts = paperFacts(worked, { closing, out, ...(rules === undefined ? {} : { rules }) }, numbered);
  return need(makePaper(kind, facts, why), file);
}

/** One line of a job file: JSON is YAML. A paper without a number of a series is named by its job and kind. */
function issuedEvent({ job }: WorkedJob, { paper, content, total }: MadePaper): string {
  const { kind, date } = paper;
  const number = paper.number ?? `${job.id}-${kind.replaceAll(" ", "-")}`;
  const sum = total === undefined ? {} : { total };
  return `  - issued: ${JSON.stringify({ paper: kind, number, date, ...sum, hash: sha256(content), content })}`;
}

function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}
