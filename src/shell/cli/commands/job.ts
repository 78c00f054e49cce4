import type { Command } from "commander";
import { planOf, type WorkedJob } from "../../../core/ledger/index.ts";
import { explain, legs } from "../../../core/suspect/index.ts";
import { faultsInWords } from "../../words/faults.ts";
import { observationInWords } from "../../words/observation.ts";
import { minutesInWords, oddsInWords } from "../../words/odds.ts";
import { nextStepInWords, runnerUpInWords, stateInWords } from "../../words/step.ts";
import { wrap } from "../../words/wrap.ts";
import { openJob } from "../open-job.ts";
import { print, printJson } from "../outcome.ts";

const width = 96;
const runnersUp = 4;
/** An observation speaks for or against a fault from twice as likely on (ln 2). */
const leastPull = 0.7;

/** What a job's file comes to: possible faults, the next step, the questions for the telephone. */
export function addJob(program: Command): void {
  program
    .command("faults <JOB>")
    .description("possible faults of a job, with odds, and what speaks for each")
    .option("--why", "for each leading fault, what was expected against what was found")
    .option("--json", "for programs")
    .addHelpText("after", "\nExample:\n  faultwright faults examples/cold-one-pole.yaml --why\n")
    .action((file: string, options: { why?: true; json?: true }) => showFaults(openJob(file), options));
  program
    .command("next <JOB>")
    .description("the next step of a job: where, with what, why, and what the meter should show")
    .option("--json", "for programs")
    .addHelpText("after", "\nExample:\n  faultwright next examples/cold-one-pole.yaml\n")
    .action((file: string, options: { json?: true }) => {
      const open = openJob(file);
      const plan = planOf(open, "machine");
      if (options.json === true)
        printJson({ job: open.job.id, plan, faults: open.belief.parts, notOnThisSheet: open.belief.notOnThisSheet });
      else showNext(open);
    });
  program
    .command("ask <JOB>")
    .description("the questions to ask on the telephone, best first")
    .option("--json", "for programs")
    .addHelpText("after", "\nExample:\n  faultwright ask examples/always-damp.yaml\n")
    .action((file: string, options: { json?: true }) => showQuestions(openJob(file), options.json === true));
}

/** The head of everything about a job: what it is, and whether the machine is live. */
function heading(open: WorkedJob, state: string): string[] {
  const {
    job,
    sheet,
    state: { work },
  } = open;
  const age = job.machine.ageYears === undefined ? "" : `, ${job.machine.ageYears} years`;
  return [
    `Job ${job.id}: "${job.complaint}"`,
    `${sheet.title}${age} · ${minutesInWords(work.minutes)} so far · ${state}`,
  ];
}

function showFaults(open: WorkedJob, options: { readonly why?: true; readonly json?: true }): void {
  const { observations } = open;
  const explanations =
    options.why === true || options.json === true ? explain(open.case, observations, open.belief) : [];
  const boards = legs(open.case, observations, open.belief);
  if (options.json === true) {
    const { parts, nothingWrong, notOnThisSheet, severalFaults, worst } = open.belief;
    printJson({ job: open.job.id, parts, nothingWrong, notOnThisSheet, severalFaults, worst, explanations, boards });
    return;
  }
  print([
    ...heading(open, stateInWords(planOf(open, "machine"))),
    "",
    "Possible faults",
    ...faultsInWords(open.belief),
  ]);
  const signs = open.case.candidates[0]?.machine.signs ?? [];
  for (const { says, p, observations: points } of explanations) {
    print(["", `${says}: ${oddsInWords(p)}`]);
    let silent = 0;
    for (const point of points) {
      const observation = observations[point.observation];
      if (observation === undefined || point.overruled) continue;
      if (Math.abs(point.weight) < leastPull) {
        silent++;
        continue;
      }
      const pull = point.weight > 0 ? "speaks for it" : "speaks against it";
      print(
        wrap(`${observationInWords(observation, signs)}; expected ${point.predicted}: ${pull}`, width, "  - ", "    "),
      );
    }
    if (silent > 0) print(`  - ${silent} more that speak neither for nor against it`);
  }
  for (const board of boards) {
    if (board.proved) continue;
    const missing = board.legs.filter(({ seen }) => !seen).map(({ leg }) => leg);
    print([
      "",
      ...wrap(`${board.says}: not excluded, and not proved. Still to be seen: ${missing.join("; ")}.`, width, "  "),
    ]);
  }
  doubts(open);
}

/** What sits worst with all the rest, when it does. */
function doubts(open: WorkedJob): void {
  const { worst } = open.belief;
  const odd = worst === undefined ? undefined : open.observations[worst.observation];
  if (worst === undefined || odd === undefined || !worst.contradicts) return;
  const signs = open.case.candidates[0]?.machine.signs ?? [];
  print([
    "",
    ...wrap(
      `Nothing explains everything. This sits worst with all the rest: ${observationInWords(odd, signs)}.`,
      width,
      "  ! ",
      "    ",
    ),
    ...wrap(
      "Check it first: the right two points, a good contact of the tips, the range, and whether this is the right sheet.",
      width,
      "    ",
    ),
  ]);
}

export function showNext(open: WorkedJob): void {
  const plan = planOf(open, "machine");
  const [next, ...rest] = plan.steps;
  const { currency } = open.shop;
  print([...heading(open, stateInWords(plan)), "", "Possible faults", ...faultsInWords(open.belief)]);
  doubts(open);
  if (plan.energy === "plug out" && !plan.provedDead && open.state.work.open.size > 0) {
    print([
      "",
      ...wrap(
        "Covers are open and it was not proved dead: two-pole tester first (`- isolated: two-pole tester`).",
        width,
        "  ! ",
        "    ",
      ),
    ]);
  }
  for (const protector of plan.unanswered) {
    const reasons = protector.reasons.slice(0, 4).map(({ says, p }) => `${says} (${oddsInWords(p)})`);
    print([
      "",
      ...wrap(
        `${protector.says} is open: why? ${reasons.join(", ")}. The job cannot close before this is answered.`,
        width,
        "  ! ",
        "    ",
      ),
    ]);
  }
  if (plan.timeIsUp) print(["", "  ! The time agreed for finding the fault is up: stop and talk to the customer."]);
  if (next === undefined) {
    print(["", "Nothing is left to do."]);
    return;
  }
  print(["", "Next step", ...nextStepInWords(next, currency)]);
  if (rest.length > 0)
    print(["", "Or instead", ...rest.slice(0, runnersUp).flatMap((step) => runnerUpInWords(step, currency))]);
}

function showQuestions(open: WorkedJob, json: boolean): void {
  const plan = planOf(open, "telephone");
  if (json) {
    printJson({ job: open.job.id, steps: plan.steps, faults: open.belief.parts });
    return;
  }
  print([
    ...heading(open, stateInWords(plan)),
    "",
    "First, always",
    ...always.flatMap((text) => wrap(text, width, "  - ", "    ")),
  ]);
  print(["", "Then, best first"]);
  const questions = plan.steps.flatMap((step) => step.questions).slice(0, 7);
  for (const question of questions) {
    print(wrap(question.says, width, "  > ", "    "));
    for (const band of question.bands) {
      const word = typeof band.reach === "object" && "word" in band.reach ? band.reach.word : "";
      print(
        wrap(
          `${word}: ${band.faults
            .slice(0, 3)
            .map(({ says }) => says)
            .join("; ")}`,
          width,
          "      ",
          "        ",
        ),
      );
    }
  }
  if (questions.length === 0) print("  Nothing more that a question would settle.");
  print(["", "Possible faults so far", ...faultsInWords(open.belief)]);
}

/** Before any other question; common practice, no source. */
const always = [
  "Is anything burning, smoking, tingling to the touch, or is water near the plug? Then nobody touches the machine; if it is safe to reach, off at the fuse box, tap shut.",
  "Please send a picture of the type plate and of the display.",
  "When did it last work, and what has changed since: moved, power cut, long unused, someone tried to mend it?",
];
