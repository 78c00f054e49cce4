import { Argument, type Command } from "commander";
import { schemaOf, WRITTEN_FORMS, type WrittenForm } from "../../../core/ledger/index.ts";
import { shippedLibrary } from "../library.ts";
import { printJson } from "../outcome.ts";

/** The schema of a file that a person writes, for an editor's completions. */
export function addSchema(program: Command): void {
  const form = new Argument("<form>", "what is written").choices(WRITTEN_FORMS);
  program
    .command("schema")
    .addArgument(form)
    .description("the JSON Schema of a file that a person writes, for an editor to complete and check while you write")
    .addHelpText("after", "\nExample:\n  faultwright schema sheet > sheet.schema.json\n")
    .action((name: WrittenForm) => printJson(schemaOf(name, shippedLibrary())));
}
