import type { Command } from "commander";
import { planOf } from "../../../core/ledger/index.ts";
import { explain, legs } from "../../../core/suspect/index.ts";
import { doubtsInWords } from "../../words/doubts.ts";
import { whyInWords } from "../../words/explanation.ts";
import { faultsInWords } from "../../words/faults.ts";
import { faultsForPrograms } from "../../words/for-programs.ts";
import { headingInWords } from "../../words/heading.ts";
import { openJob } from "../open-job.ts";
import { print, printJson } from "../outcome.ts";

/** Possible faults of a job, and on demand what speaks for and against each. */
export function addFaults(program: Command): void {
  program
    .command("faults <JOB>")
    .description("possible faults of a job, with odds, and what speaks for each")
    .option("--why", "for each leading fault: what a machine with it would show, against what was found")
    .option("--json", "for programs: docs/json.md")
    .addHelpText("after", "\nExample:\n  faultwright faults examples/cold-one-pole.yaml --why\n")
    .action((file: string, options: { why?: true; json?: true }) => {
      const open = openJob(file);
      if (options.json === true) {
        printJson(faultsForPrograms(open));
        return;
      }
      const boards = legs(open.case, open.observations, open.belief);
      const explained = options.why === true ? explain(open.case, open.observations, open.belief) : [];
      print([
        ...headingInWords(open, planOf(open, "machine")),
        "",
        "Possible faults",
        ...faultsInWords(open.belief, open.state.repairs.length > 0),
        ...whyInWords(open, explained, boards),
        ...doubtsInWords(open),
      ]);
    });
}
