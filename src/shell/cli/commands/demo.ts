import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "commander";
import { planOf } from "../../../core/ledger/index.ts";
import { nextInWords } from "../../words/next.ts";
import { observationInWords } from "../../words/observation.ts";
import { wrap } from "../../words/wrap.ts";
import { dataFolder } from "../files.ts";
import { openJob } from "../open-job.ts";
import { print } from "../outcome.ts";

/** The demonstration: one job of an invented shop, told from the complaint to its next step. */
export function addDemo(program: Command): void {
  program
    .command("demo")
    .description("the demonstration: a dryer that turns but stays cold, up to its next step")
    .action(() => {
      const file = join(dataFolder(), "..", "examples", "cold-one-pole.yaml");
      if (!existsSync(file)) throw new Error(`the demonstration job is missing: ${file}`);
      const open = openJob(file);
      const signs = open.case.candidates[0]?.machine.signs ?? [];
      print([
        "A demonstration: an invented shop, an invented machine.",
        "",
        `The customer says: "${open.job.complaint}". What is known so far:`,
        ...open.state.observations.flatMap(({ observation }) =>
          wrap(observationInWords(observation, signs), 96, "  - ", "    "),
        ),
        "",
      ]);
      print(nextInWords(open, planOf(open, "machine")));
      print([
        "",
        "The same for your own job: ./faultwright next JOB.yaml (examples/ holds ten; ./faultwright --help tells the rest).",
      ]);
    });
}
