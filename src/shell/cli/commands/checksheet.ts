import type { Command } from "commander";
import { type Mode, modesOf } from "../../../core/fault/index.ts";
import { type Issue, sentence } from "../../../core/issue/index.ts";
import { Predictor } from "../../../core/predict/index.ts";
import { checkRuns } from "../../../core/run/index.ts";
import { checkSheet, type Machine } from "../../../core/sheet/index.ts";
import { testabilityRows } from "../../words/testability.ts";
import { parseAnswers, sheetNamed, shippedLibrary, shippedMeters } from "../library.ts";
import { choiceInWords, commonestMachine } from "../machine.ts";
import { exitCode, need, print, printJson } from "../outcome.ts";
import { answerOption } from "./answer-option.ts";

/** Reads a sheet as its author's second pair of eyes: what is wrong, what is doubtful, how much it can tell apart. */
export function addChecksheet(program: Command): void {
  program
    .command("checksheet <SHEET>")
    .description(
      "check a wiring sheet: loose wires, names, shares, guards, how a good machine runs, what can be told apart",
    )
    .addOption(answerOption("of the machine that is run: "))
    .option("--json", "for programs")
    .addHelpText(
      "after",
      "\nExample:\n  faultwright checksheet tumble-dryer\n\nExit codes: 0 no error (warnings alone give 0) · 1 the sheet has errors · 2 it cannot be read.\n",
    )
    .action((name: string, options: { answer: readonly string[]; json?: true }) => {
      const library = shippedLibrary();
      const sheet = sheetNamed(name, library);
      const drawn = checkSheet(sheet, library);
      if (drawn.some(({ severity }) => severity === "error")) {
        report(drawn, options.json === true);
        return;
      }
      const machine = commonestMachine(sheet, library, need(parseAnswers(options.answer)));
      const modes = modesOf(machine);
      const issues = [...drawn, ...checkRuns(machine, modes)];
      if (options.json !== true) {
        print([
          `${machine.title}: ${machine.parts.length} parts with their connections, ${modes.length} ways to fail, ${machine.points.length} points to probe, ${machine.signs.length} things to notice`,
          choiceInWords(machine),
        ]);
      }
      if (options.json !== true) print(["", ...testabilityTable(machine, modes)]);
      report(issues, options.json === true);
    });
}

/** How much of what can fail is noticed at all, and how far it can be told apart, by how near to danger one goes. */
function testabilityTable(machine: Machine, modes: readonly Mode[]): string[] {
  const rows = testabilityRows(new Predictor(machine, modes), shippedMeters()).map(({ says, shows, downTo, left }) => {
    const shares = [shows, ...downTo].map((share) => `${Math.round(100 * share)} %`.padStart(10));
    return `  ${says.padEnd(30)}${shares.join("")}${left.toFixed(1).padStart(12)}`;
  });
  const heads = [
    ["show", "down to", "to 1 or", "to 1, 2", "left on"],
    ["at all", "1 thing", "2", "or 3", "average"],
  ].map((words) => `  ${"".padEnd(30)}${words.map((word, n) => word.padStart(n < 4 ? 10 : 12)).join("")}`);
  return [
    "Of 100 faults as often as they happen: how many show at all, and how far those can be narrowed down",
    ...heads,
    ...rows,
    "  In the terms of IEEE 1522: fraction of faults detected, fraction of faults isolated, size of ambiguity group.",
  ];
}

function report(issues: readonly Issue[], json: boolean): void {
  const errors = issues.filter(({ severity }) => severity === "error").length;
  if (json) printJson(issues);
  else {
    if (issues.length > 0) print(["", ...issues.map(sentence)]);
    const warnings = issues.length - errors;
    print(["", `${errors} error${errors === 1 ? "" : "s"}, ${warnings} warning${warnings === 1 ? "" : "s"}`]);
  }
  if (errors > 0) process.exitCode = exitCode.faultsFound;
}
