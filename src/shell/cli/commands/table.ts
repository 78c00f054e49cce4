import type { Command } from "commander";
import { askPlan } from "../../../core/search/index.ts";
import { askEvidence } from "../../../core/suspect/index.ts";
import { readText } from "../files.ts";
import { parseJson } from "../json.ts";
import { need, printJson } from "../outcome.ts";
import { wholeNumber } from "../whole-number.ts";

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
  table
    .command("plan <TABLE.json>")
    .description("the cheapest sequence of tests and repairs, with a proven lower bound (form faultwright-table/1)")
    .option("--policy", "the whole policy as a graph")
    .option("--work <n>", "bound the search: nodes expanded", wholeNumber(1))
    .addHelpText("after", "\nExample:\n  faultwright table plan table.json --policy --work 1000\n")
    .action((file: string, options: { readonly policy?: true; readonly work?: number }) => {
      const json = need(parseJson(need(readText(file)), file));
      printJson(need(askPlan(json, options), file));
    });
}
