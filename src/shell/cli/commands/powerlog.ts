import type { Command } from "commander";
import { againstSheet, analysePower, expectedSteps, readPowerLog } from "../../../core/powerlog/index.ts";
import { againstSheetInWords, powerLogInWords } from "../../words/powerlog.ts";
import { readText } from "../files.ts";
import { parseAnswers, sheetNamed, shippedLibrary } from "../library.ts";
import { choiceInWords, commonestMachine } from "../machine.ts";
import { need, print, printJson } from "../outcome.ts";
import { answerOption } from "./answer-option.ts";

/** Half a year at a sample every ten seconds. */
const LARGEST_MEGABYTES = 64;

interface PowerLogOptions {
  readonly sheet?: string;
  readonly answer: readonly string[];
  readonly column?: string;
  readonly json?: true;
}

/** What ran, at what power, by a log of the power at the plug; and whether that is the programme of a sheet. */
export function addPowerLog(program: Command): void {
  program
    .command("powerlog <FILE>")
    .description(
      "what a log of the power at the plug shows: what ran, at how many watts; --sheet: is that its programme?",
    )
    .option("--sheet <SHEET>", "hold it against the programme of this sheet")
    .addOption(answerOption("with --sheet: "))
    .option("--column <name>", "the column of power, by its name or number; the first when silent")
    .option("--json", "for programs")
    .addHelpText(
      "after",
      `
A log is text with a time and watts a row, from any plug-in logger: seconds or dates and times; separators and decimal
commas are found by themselves. docs/powerlog.md tells more.
Example:
  faultwright powerlog wash.csv --sheet washing-machine
`,
    )
    .action((file: string, { sheet, answer, column, json }: PowerLogOptions) => {
      const log = need(readPowerLog(need(readText(file, LARGEST_MEGABYTES)), file, column));
      const analysis = analysePower(log);
      const library = sheet === undefined ? undefined : shippedLibrary();
      const machine =
        sheet === undefined || library === undefined
          ? undefined
          : commonestMachine(sheetNamed(sheet, library), library, need(parseAnswers(answer)));
      const against =
        machine === undefined ? undefined : againstSheet(analysis, expectedSteps(machine), machine.supply.volts);
      if (json) {
        const { column: taken, columns } = log;
        printJson({
          format: "faultwright-powerlog/1",
          column: taken,
          columns,
          ...analysis,
          ...(against === undefined ? {} : { against }),
        });
        return;
      }
      print(powerLogInWords(log, analysis));
      if (machine === undefined || against === undefined) return;
      print([
        "",
        `Against the sheet ${machine.title} (${choiceInWords(machine)})`,
        ...againstSheetInWords(against, analysis.volts),
      ]);
    });
}
