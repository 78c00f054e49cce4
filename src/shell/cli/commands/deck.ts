import type { Command } from "commander";
import { askDeck } from "../../../core/circuit/index.ts";
import { modesOf } from "../../../core/fault/index.ts";
import { refuse } from "../../../core/issue/index.ts";
import { didYouMean } from "../../../core/part/index.ts";
import { deckOf, openRunner } from "../../../core/run/index.ts";
import { readText } from "../files.ts";
import { parseJson } from "../json.ts";
import { parseAnswers, sheetNamed, shippedLibrary } from "../library.ts";
import { commonestMachine } from "../machine.ts";
import { need, print, printJson } from "../outcome.ts";
import { answerOption } from "./answer-option.ts";

interface DeckOptions {
  readonly ask?: string;
  readonly step?: string;
  readonly fault?: string;
  readonly answer: readonly string[];
}

/** A circuit as other programs speak it: questions to a SPICE deck, or a sheet written out as one. */
export function addDeck(program: Command): void {
  program
    .command("deck <deck-or-sheet>")
    .description("ask a SPICE deck exact questions (--ask), or write a wiring sheet as a deck")
    .option("--ask <ASK.json>", "questions to a deck: JSON in, JSON out")
    .option("--step <step>", "of a sheet: the step of the programme to freeze", "heat")
    .option("--fault <id>", "of a sheet: a fault to put in, as `faults` names it with --json")
    .addOption(answerOption("of a sheet: "))
    .addHelpText(
      "after",
      "\nExamples:\n  faultwright deck bridge.cir --ask questions.json\n  faultwright deck tumble-dryer --step heat --answer stages=one > heat.cir\n",
    )
    .action((file: string, options: DeckOptions) => {
      if (options.ask !== undefined) askOf(file, options.ask);
      else writeSheet(file, options);
    });
}

function askOf(deckFile: string, askFile: string): void {
  const deck = need(readText(deckFile));
  const ask = need(parseJson(need(readText(askFile)), askFile));
  printJson(need(askDeck(deck, ask, { deck: deckFile, ask: askFile })));
}

function writeSheet(name: string, options: DeckOptions): void {
  const library = shippedLibrary();
  const machine = commonestMachine(sheetNamed(name, library), library, need(parseAnswers(options.answer)));
  const modes = modesOf(machine);
  const mode = modes.find(({ id }) => id === options.fault);
  if (options.fault !== undefined && mode === undefined) {
    const known = modes.map(({ id }) => id);
    need(unknown("fault.unknown", options.fault, "a fault of this machine", known));
  }
  const effects = mode?.severities[0]?.effects ?? [];
  const run = openRunner(machine).run(effects);
  const key = `${options.step}@end`;
  const picture =
    run.pictures.get(key) ?? need(unknown("step.unknown", options.step ?? "", "a step it reaches", run.reached));
  const [member] = picture.members;
  if (member === undefined) throw new Error(`picture ${key} is empty`);
  print(deckOf(machine, effects, member, `${machine.title}, ${options.step}`).text);
}

function unknown(code: string, found: string, expected: string, known: readonly string[]) {
  const hint = didYouMean(found, known) ?? `Known: ${known.slice(0, 12).join(", ")} ...`;
  return refuse({ code, severity: "error", at: [], found: `"${found}"`, expected, hint });
}
