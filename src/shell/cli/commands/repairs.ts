import { type Command, Option } from "commander";
import { IssueList } from "../../../core/issue/index.ts";
import { type Job, readJob } from "../../../core/ledger/index.ts";
import {
  BARRIERS,
  type Barrier,
  CATEGORIES,
  type Category,
  readRepairs,
  repairOfJob,
  tabulate,
  writeRepairs,
} from "../../../core/repairs/index.ts";
import { repairsInWords } from "../../words/repairs.ts";
import { applianceOf } from "../appliance.ts";
import { readText } from "../files.ts";
import { shopNamed } from "../library.ts";
import { need, print, printJson, Refused } from "../outcome.ts";

/** A third of a million repairs are some 80 MB. */
const LARGEST_MEGABYTES = 256;

/** Repairs in the Open Repair Data Standard: what became of those in a file, and finished jobs written as such a file. */
export function addRepairs(program: Command): void {
  const repairs = program
    .command("repairs")
    .description("repairs as open data: count those of a file, or write finished jobs as one")
    .addHelpText(
      "after",
      `
Examples:
  faultwright repairs count repairs.csv
  faultwright repairs write job-1.yaml job-2.yaml --date 2026-03-04 > repairs.csv
`,
    );
  repairs
    .command("count <FILE>")
    .description("what became of the repairs of a file, category by category")
    .option("--json", "for programs")
    .action((file: string, { json }: { json?: true }) => {
      const rows = tabulate(need(readRepairs(need(readText(file, LARGEST_MEGABYTES)), file)));
      if (json)
        printJson({
          format: "faultwright-repairs/1",
          rows: rows.map((row) => ({ ...row, barriers: Object.fromEntries(row.barriers) })),
        });
      else print(repairsInWords(rows));
    });
  repairs
    .command("write <JOB...>")
    .description("finished jobs as a file of the Open Repair Data Standard, on standard output")
    .option("--date <day>", "day of the visits, 2026-03-04, where the jobs do not tell")
    .addOption(
      new Option("--category <name>", "of machines whose family the standard does not name").choices(CATEGORIES),
    )
    .addOption(new Option("--given-up <barrier>", "why the machines came to their end").choices(BARRIERS))
    .action((files: readonly string[], options: { date?: string; category?: Category; givenUp?: Barrier }) => {
      const issues = new IssueList();
      const written = files.flatMap((file) => {
        const job = need(readJob(need(readText(file)), file));
        return issues.take(repairOfJob(job, factsOf(job, options))) ?? [];
      });
      if (issues.hasErrors) throw new Refused(issues.all);
      process.stdout.write(writeRepairs(written));
    });
}

function factsOf(job: Job, { date, category, givenUp }: { date?: string; category?: Category; givenUp?: Barrier }) {
  const shop = shopNamed(job.shop);
  const country = shop.trading?.country ?? shop.letterhead?.party.country;
  return {
    provider: shop.letterhead?.party.name ?? shop.says,
    ...(country === undefined ? {} : { country }),
    appliance: applianceOf(job),
    ...(date === undefined ? {} : { date }),
    ...(category === undefined ? {} : { category }),
    ...(givenUp === undefined ? {} : { barrier: givenUp }),
  };
}
