import type { WorkedJob } from "../../core/ledger/index.ts";
import type { Plan, PlanQuestion } from "../../core/plan/index.ts";
import { faultsInWords } from "./faults.ts";
import { headingInWords } from "./heading.ts";
import { runnerUpInWords } from "./step.ts";
import { width, wrap } from "./wrap.ts";
import { lineToWrite } from "./write-down.ts";

const mostQuestions = 7;
/** Faults told of one answer. */
const mostFaults = 3;
/** Remedies told when there is nothing more to ask. */
const mostRemedies = 3;

/**
 * The questions for the telephone, best first; when none is left, what to do now.
 *
 * @param visit  the plan at the machine, worked out only when there is nothing more to ask
 * @param file   the job's file as the user named it
 */
export function questionsInWords(worked: WorkedJob, plan: Plan, visit: () => Plan, file: string): string[] {
  const questions = plan.steps.flatMap((step) => step.questions).slice(0, mostQuestions);
  return [
    ...headingInWords(worked, plan),
    "",
    "First, always",
    ...always.flatMap((text) => wrap(text, width, "  - ", "    ")),
    "",
    ...(questions.length === 0
      ? noMore(worked, visit(), file)
      : ["Then, best first", ...questions.flatMap(questionInWords)]),
    "",
    "Possible faults so far",
    ...faultsInWords(worked.belief, worked.state.repairs.length > 0),
  ];
}

function questionInWords(question: PlanQuestion): string[] {
  const lines = wrap(question.says, width, "  > ", "    ");
  for (const { reach, faults } of question.bands) {
    const word = typeof reach === "object" && "word" in reach ? reach.word : "";
    const names = faults.slice(0, mostFaults).map(({ says }) => says);
    lines.push(...wrap(`${word}: ${names.join("; ")}`, width, "      ", "        "));
  }
  return [...lines, `      ${lineToWrite(question.observation)}`];
}

function noMore({ shop }: WorkedJob, visit: Plan, file: string): string[] {
  const remedies = visit.steps.filter(({ do: what }) => what === "repair").slice(0, mostRemedies);
  return [
    "No further question would settle more than it costs. Agree on a visit",
    ...wrap(`At the machine: ./faultwright next ${file}`, width, "  "),
    ...(remedies.length === 0
      ? []
      : ["  Load for it, likeliest first:", ...remedies.flatMap((step) => runnerUpInWords(step, shop.currency))]),
  ];
}

/** Before any other question; common practice, no source. */
const always = [
  "Is anything burning, smoking, tingling to the touch, or is water near the plug? Then nobody touches the machine; if it is safe to reach, off at the fuse box, tap shut.",
  "Please send a picture of the type plate and of the display.",
  "When did it last work, and what has changed since: moved, power cut, long unused, someone tried to mend it?",
];
