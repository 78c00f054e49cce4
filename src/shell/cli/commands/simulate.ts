import { type Command, InvalidArgumentError, Option } from "commander";
import {
  playMachine,
  STRATEGIES,
  type Strategy,
  summaryOf,
  WRONG_SHEETS,
  type WrongSheet,
} from "../../../core/trial/index.ts";
import { dearestInWords, simulationInWords } from "../../words/simulation.ts";
import { print, printJson } from "../outcome.ts";
import { playAll, type SimulationAsk, threadsAtHand, trialOf } from "../players.ts";
import { ProgressBar } from "../progress-bar.ts";
import { wholeNumber } from "../whole-number.ts";

interface Options {
  readonly machines: number;
  readonly seed: string;
  readonly wrong?: WrongSheet;
  readonly strategies: readonly Strategy[];
  readonly threads: number;
  readonly dearest: number;
  readonly only?: number;
  readonly costs: string;
  readonly json?: true;
}

/**
 * Technicians tried on thousands of drawn machines.
 *
 * @param starter  address of the file that starts this program, so that threads can start it too
 */
export function addSimulate(program: Command, starter: URL): void {
  program
    .command("simulate <SHEET>")
    .description("three ways of working tried on machines with hidden faults, drawn from a sheet: what each costs")
    .option("--machines <n>", "how many machines are drawn", wholeNumber(1), 100)
    .option("--seed <text>", "the same seed draws the same machines", "1")
    .addOption(new Option("--wrong <what>", "the technician's sheet is wrong in this").choices(WRONG_SHEETS))
    .addOption(
      new Option("--strategies <names>", "ways of working, with commas in between")
        .argParser(strategiesOf)
        .default(STRATEGIES, STRATEGIES.join(",")),
    )
    .option("--threads <n>", "threads that work side by side; no number hangs on it", wholeNumber(1), threadsAtHand())
    .option("--dearest <n>", "lists so many of the plan's dearest jobs", wholeNumber(0), 0)
    .option("--only <n>", "plays this machine alone, and tells each job's history", wholeNumber(0))
    .option("--costs <name>", "the shop's cost file", "demo-shop")
    .option("--json", "for programs: the summary and every job")
    .addHelpText("after", "\nExample:\n  faultwright simulate tumble-dryer --machines 200 --seed 1\n")
    .action(async (sheet: string, options: Options) => {
      const ask: SimulationAsk = {
        sheet,
        shop: options.costs,
        machines: options.machines,
        seed: options.seed,
        strategies: options.strategies,
        ...(options.wrong === undefined ? {} : { wrong: options.wrong }),
      };
      if (options.only === undefined) await showAll(ask, options, starter);
      else showOne(ask, options.only, options.json === true);
    });
}

async function showAll(ask: SimulationAsk, options: Options, starter: URL): Promise<void> {
  const { shop } = trialOf(ask);
  const bar = new ProgressBar(process.stderr, "machines", ask.machines);
  bar.show(0);
  const played = await playAll(ask, options.threads, starter, (done) => bar.show(done));
  bar.clear();
  const summary = summaryOf(played);
  if (options.json === true) {
    printJson({ ask, summary, played });
    return;
  }
  print([
    `${ask.machines} machines from the sheet ${ask.sheet}, seed ${ask.seed}; costs of ${shop.says}`,
    "",
    ...simulationInWords(summary, shop.currency, ask.wrong),
  ]);
  if (options.dearest > 0)
    print(["", "The plan's dearest jobs", ...dearestInWords(played, options.dearest, shop.currency)]);
}

function showOne(ask: SimulationAsk, machine: number, json: boolean): void {
  const trial = trialOf(ask);
  const jobs = playMachine(trial, machine);
  if (json) {
    printJson(jobs.map(({ played, history }) => ({ ...played, events: history.events })));
    return;
  }
  for (const { played, history } of jobs) {
    print([
      "",
      `${played.strategy}, ${played.sheet} sheet: machine ${machine}, ${played.fault}`,
      ...history.events.map(({ id, line: _, kind, ...rest }) => `  ${id} ${kind} ${JSON.stringify(rest)}`),
      `  ${history.ended}${history.cameBack ? ", came back" : ""}; ${played.bill.money.toFixed(0)} ${trial.shop.currency}, ${played.bill.minutes.toFixed(0)} minutes`,
    ]);
  }
}

function strategiesOf(text: string): readonly Strategy[] {
  return text.split(",").map((name) => {
    const found = STRATEGIES.find((strategy) => strategy === name.trim());
    if (found === undefined) throw new InvalidArgumentError(`Known: ${STRATEGIES.join(", ")}.`);
    return found;
  });
}
