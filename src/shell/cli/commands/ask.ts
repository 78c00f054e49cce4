import type { Command } from "commander";
import { planOf } from "../../../core/ledger/index.ts";
import { questionsForPrograms } from "../../words/for-programs.ts";
import { questionsInWords } from "../../words/questions.ts";
import { openJob } from "../open-job.ts";
import { print, printJson } from "../outcome.ts";

/** The questions for the telephone, and what to do when there are no more. */
export function addAsk(program: Command): void {
  program
    .command("ask <JOB>")
    .description("the questions to ask on the telephone, best first")
    .option("--json", "for programs: docs/json.md")
    .addHelpText(
      "after",
      `
Example:
  faultwright ask examples/always-damp.yaml

Write each answer into the job file as \`- told: {...}\` (\`heard\` for what you hear yourself on the phone), and ask again.
`,
    )
    .action((file: string, options: { json?: true }) => {
      const open = openJob(file);
      const plan = planOf(open, "telephone");
      if (options.json === true) printJson(questionsForPrograms(open, plan));
      else print(questionsInWords(open, plan, () => planOf(open, "machine"), file));
    });
}
