import type { Command } from "commander";
import { readShelf, shelfAfter, toOrder } from "../../../core/shelf/index.ts";
import { shelfInWords } from "../../words/shelf.ts";
import { readText } from "../files.ts";
import { openJob } from "../open-job.ts";
import { need, print, printJson } from "../outcome.ts";

/** The shop's stock, what jobs used up of it, and what is to be ordered. */
export function addShelf(program: Command): void {
  program
    .command("shelf <FILE> [JOBS...]")
    .description("the stock by place, what these jobs used up of it, and what is to be ordered")
    .option("--json", "for programs: docs/json.md")
    .addHelpText(
      "after",
      `
Example:
  faultwright shelf data/shelves/demo-shelf.yaml examples/hums.yaml

Name the jobs whose repairs are not yet taken off the counts of the file. The file is not written.
`,
    )
    .action((file: string, jobs: readonly string[], { json }: { json?: true }) => {
      const shelf = need(readShelf(need(readText(file)), file));
      const worked = jobs.map((job) => openJob(job));
      const after = shelfAfter(shelf, worked);
      const orders = toOrder(after.shelf, worked);
      if (json === true) printJson({ format: "faultwright-shelf-now/1", ...after, orders });
      else print(shelfInWords(after.shelf, after.taken, orders));
    });
}
