import type { Command } from "commander";
import { choicesOf, readDuties, readLives } from "../../../core/choice/index.ts";
import { planOf } from "../../../core/ledger/index.ts";
import { choicesInWords } from "../../words/choices.ts";
import { dayOption } from "../day-option.ts";
import { dataTexts } from "../files.ts";
import { openJob } from "../open-job.ts";
import { need, print, printJson } from "../outcome.ts";

/** What the customer can choose between, with prices and odds. */
export function addChoices(program: Command): void {
  program
    .command("choices <JOB>")
    .description("what the customer can choose between: price, odds of cure and of coming back, when it is ready")
    .addOption(dayOption("today, for the maker's duty to deliver parts"))
    .option("--json", "for programs: docs/json.md")
    .addHelpText(
      "after",
      `
Example:
  faultwright choices examples/cold-victim-of-lint.yaml

Write what was shown, and what was decided, into the job file: offered, accepted or declined (docs/job-file.md).
`,
    )
    .action((file: string, { json, date }: { json?: true; date: string }) => {
      const worked = openJob(file);
      const lives = [...dataTexts("lives")].flatMap(([id, text]) => need(readLives(text, `data/lives/${id}.yaml`)));
      const duties = [...dataTexts("duties")].flatMap(([id, text]) => need(readDuties(text, `data/duties/${id}.yaml`)));
      const choices = choicesOf(worked, { lives, duties, date, plan: planOf(worked, "machine") });
      if (json === true) printJson({ format: "faultwright-choices/1", job: worked.job.id, date, ...choices });
      else print(choicesInWords(worked, choices));
    });
}
