import type { Command } from "commander";
import { planOf } from "../../../core/ledger/index.ts";
import { nextForPrograms } from "../../words/for-programs.ts";
import { nextInWords } from "../../words/next.ts";
import { openJob } from "../open-job.ts";
import { print, printJson } from "../outcome.ts";
import { wholeNumber } from "../whole-number.ts";

/** Situations looked into by `--refine`: some seconds. */
const usualWork = 1000;

/** The next step of a job, or how what was mended is verified. */
export function addNext(program: Command): void {
  program
    .command("next <JOB>")
    .description("the next step of a job: where, with what, why, and what the meter should show")
    .option("--refine", "search to the end of the job for the best step, and tell the bound; takes some seconds")
    .option("--work <n>", `with --refine: situations looked into (${usualWork} unless told)`, wholeNumber(1))
    .option("--json", "for programs: docs/json.md")
    .addHelpText(
      "after",
      `
Example:
  faultwright next examples/cold-one-pole.yaml

Take the step, write what you found into the job file (each step ends with the lines to write), and ask again. You may
take another step instead: what you write down is what counts. After a repair it says what is still to be verified.
`,
    )
    .action((file: string, options: { json?: true; refine?: true; work?: number }) => {
      const open = openJob(file);
      const isRefined = options.refine === true || options.work !== undefined;
      const plan = planOf(open, "machine", isRefined ? (options.work ?? usualWork) : undefined);
      if (options.json === true) printJson(nextForPrograms(open, plan));
      else print(nextInWords(open, plan, isRefined));
    });
}
