#!/usr/bin/env node
import { Command, CommanderError } from "commander";
import { sentence } from "../../core/issue/index.ts";
import { addAsk } from "./commands/ask.ts";
import { addBench } from "./commands/bench.ts";
import { addBranch } from "./commands/branch.ts";
import { addChecksheet } from "./commands/checksheet.ts";
import { addChoices } from "./commands/choices.ts";
import { addDeck } from "./commands/deck.ts";
import { addDemo } from "./commands/demo.ts";
import { addFaults } from "./commands/faults.ts";
import { addNext } from "./commands/next.ts";
import { addPaper } from "./commands/paper.ts";
import { addPowerLog } from "./commands/powerlog.ts";
import { addPractise } from "./commands/practise.ts";
import { addProve } from "./commands/prove.ts";
import { addReadings } from "./commands/readings.ts";
import { addRepairs } from "./commands/repairs.ts";
import { addSafety } from "./commands/safety.ts";
import { addSchema } from "./commands/schema.ts";
import { addShelf } from "./commands/shelf.ts";
import { addSimulate } from "./commands/simulate.ts";
import { addTable } from "./commands/table.ts";
import { addVisit } from "./commands/visit.ts";
import { exitCode, Refused } from "./outcome.ts";
import { isPlayer, play } from "./players.ts";

/** The whole command line; one file a command under `commands/`. */
function commandLine(): Command {
  const program = new Command("faultwright")
    .description(
      "From a complaint and a few readings to the faulty part of a domestic appliance, at the least expected cost.",
    )
    .version("0.1.0")
    .showHelpAfterError("(faultwright --help tells what there is)")
    .addHelpText(
      "after",
      `
Exit codes: 0 done · 1 the sheet was checked and has faults · 2 bad input (each fault on standard error, with file,
line, what was found, what was expected) · 3 not set up · 70 our own fault, please report it.

Faultwright proposes; a competent person decides. Local rules and licensed practice come first.`,
    )
    .exitOverride();
  addAsk(program);
  addNext(program);
  addFaults(program);
  addChecksheet(program);
  addChoices(program);
  addShelf(program);
  addReadings(program);
  addProve(program);
  addPowerLog(program);
  addSafety(program);
  addRepairs(program);
  addVisit(program);
  addPaper(program);
  addPractise(program);
  addBranch(program);
  addBench(program);
  addDeck(program);
  addSchema(program);
  addTable(program);
  addSimulate(program, new URL(import.meta.url));
  addDemo(program);
  return program;
}

/** The command that was typed, with its exit code. */
async function run(): Promise<void> {
  // A reader that has seen enough (`| head`) is no fault of ours.
  process.stdout.on("error", (cause: NodeJS.ErrnoException) => {
    if (cause.code !== "EPIPE") throw cause;
    process.exit(exitCode.done);
  });
  try {
    await commandLine().parseAsync();
  } catch (cause) {
    if (cause instanceof Refused) {
      process.stderr.write(`${cause.issues.map(sentence).join("\n")}\n`);
      process.exitCode = exitCode.badInput;
    } else if (cause instanceof CommanderError) {
      process.exitCode = cause.exitCode === 0 ? exitCode.done : exitCode.badInput;
    } else {
      process.stderr.write(
        `This is a fault of Faultwright itself, not of your input: ${cause instanceof Error ? cause.message : String(cause)}\n`,
      );
      if (process.env.FAULTWRIGHT_TRACE !== undefined && cause instanceof Error)
        process.stderr.write(`${cause.stack}\n`);
      process.exitCode = exitCode.ourFault;
    }
  }
}

if (isPlayer()) play();
else await run();
