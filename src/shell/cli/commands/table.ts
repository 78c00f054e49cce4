import type { Command } from "commander";
import { askEvidence } from "../../../core/suspect/index.ts";
import { readText } from "../files.ts";
import { parseJson } from "../json.ts";
import { need, printJson } from "../outcome.ts";

/** Plain tables for other programs: no sheet, no job. */
export function addTable(program: Command): void {
  const table = program.command("table").description("work on a plain table, for other programs (JSON in, JSON out)");
  table
    .command("suspects <EVIDENCE.json>")
    .description("odds of hypotheses from readings with normal errors (form faultwright-evidence/1)")
    .addHelpText("after", "\nExample:\n  faultwright table suspects evidence.json\n")
    .action((file: string) => {
      const json = need(parseJson(need(readText(file)), file));
      printJson(need(askEvidence(json), file));
    });
}
