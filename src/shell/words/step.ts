import type { ReadGood } from "../../core/ledger/index.ts";
import type { Plan, PlanStep, SetUpAct, StoredEnergy } from "../../core/plan/index.ts";
import { formatAmount } from "../../core/quantity/index.ts";
import { minutesInWords, oddsInWords } from "./odds.ts";
import { letterOf, outcomesOf } from "./outcomes.ts";
import { drawQuestion } from "./reading.ts";
import { whyStepInWords } from "./why-step.ts";
import { width, wrap } from "./wrap.ts";
import { linesToWrite } from "./write-down.ts";

/** PLUG OUT or LIVE, as it stands now, always in the first line of anything about a step. */
export function stateInWords(plan: Plan): string {
  if (plan.energy === "live") return "LIVE (counts as live until the plug is out and it is proved dead)";
  return plan.provedDead ? "PLUG OUT, proved dead" : "PLUG OUT, not proved dead";
}

/** Where what was done and found goes: a heading, and the lines of a step. */
export interface AnswerLines {
  readonly heading: string;
  readonly lines: (step: PlanStep) => readonly string[];
}

const inJobFile: AnswerLines = { heading: "In the job file, as far as you did it", lines: linesToWrite };

/**
 * The step to take, whole: what to do, why, what can hurt, what the meter should say, what each answer leads to.
 *
 * @param good  readings of the job that came out good and narrowed the question
 */
export function nextStepInWords(
  step: PlanStep,
  currency: string,
  { answers = inJobFile, good = [] }: { readonly answers?: AnswerLines; readonly good?: readonly ReadGood[] } = {},
): string[] {
  const lines = [...wrap(headingOf(step), width, "  "), `  ${stepFacts(step, currency)}`];
  if (step.settles !== "") lines.push(...wrap(`Why: ${whyStepInWords(step, good)}.`, width, "  ", "       "));
  if (step.setUp.length > 0) {
    lines.push("", "  Get ready");
    for (const act of step.setUp) lines.push(...wrap(actInWords(act), width, "    - ", "      "));
  }
  if (step.cautions.length > 0 || step.stored.length > 0) {
    lines.push("", "  Take care");
    for (const caution of step.cautions)
      for (const text of caution.lines) lines.push(...wrap(text, width, "    ! ", "      "));
    for (const charge of step.stored) lines.push(...wrap(chargeInWords(charge), width, "    ! ", "      "));
  }
  for (const [index, question] of step.questions.entries()) {
    const mark = step.questions.length > 1 ? `(${letterOf(index)}) ` : "";
    lines.push("", ...wrap(`${mark}${pairInWords(question.says)}`, width, "  > ", "    "));
    lines.push(...drawQuestion(question, width - 4).map((line) => `    ${line}`));
  }
  lines.push(...outcomesInWords(step));
  if (step.course !== undefined) {
    lines.push(
      "",
      `  ${oddsInWords(step.course.mends)} that this mends it; comes back within a year: ${oddsInWords(step.course.back)}`,
    );
    for (const act of step.course.steps) lines.push(...wrap(act, width, "    - ", "      "));
  }
  if (step.waitsForWhy !== undefined)
    lines.push("", ...wrap(`First find out why it opened, or it will open again.`, width, "  ! "));
  if (step.overAuthority === true) lines.push("", "  ! More than the customer agreed to: ask first.");
  const written = answers.lines(step);
  if (written.length > 0) lines.push("", `  ${answers.heading}`, ...written.map((line) => `    ${line}`));
  return lines;
}

/** The step as one sentence that says what the hands do. */
export function headingOf(step: PlanStep): string {
  return step.do === "read" && /^(At|Behind) /.test(step.says)
    ? `Measure ${step.says.charAt(0).toLowerCase()}${step.says.slice(1)}`
    : step.says;
}

/** The step's sentence, and apart from it how the place is found: "3 pins, pin 1 latch side". */
export function titleOf(step: PlanStep): { readonly title: string; readonly place: string } {
  const heading = headingOf(step);
  const [, before, place = "", after = ""] = /^(.*?) \((\d+ pins?\b[^)]*)\)(.*)$/.exec(heading) ?? [];
  return before === undefined ? { title: heading, place } : { title: before + after, place };
}

/** "connector X3, pin 1 (red) to pin 3 (blue)": a connector is named once. */
function pairInWords(says: string): string {
  return says.replace(/^(connector \S+), (.+) to \1, (.+)$/, "$1, $2 to $3");
}

function outcomesInWords(step: PlanStep): string[] {
  const outcomes = outcomesOf(step);
  if (outcomes.length === 0) return [];
  const lines = outcomes.flatMap(({ ways, lead }) => [
    ...wrap(ways.join(", or "), width, "    "),
    ...wrap(lead, width, "        "),
  ]);
  return ["", "  What it leads to", ...lines];
}

/** Less likely than this to mend the job ("unlikely"), a repair is no thing to do instead. */
const leastMends = 0.05;

/** Steps that are worth naming beside the next one: no repair that hardly mends anything. */
export function worthNaming(steps: readonly PlanStep[]): readonly PlanStep[] {
  return steps.filter(({ course }) => course === undefined || course.mends >= leastMends);
}

/** One line for a step that could be taken instead. */
export function runnerUpInWords(step: PlanStep, currency: string): string[] {
  return wrap(`${headingOf(step)} (${stepFacts(step, currency)})`, width, "  - ", "    ");
}

function stepFacts(step: PlanStep, currency: string): string {
  const facts = [minutesInWords(step.minutes)];
  const parts = step.course?.price ?? 0;
  if (parts > 0) facts.push(`part about ${Math.round(parts)} ${currency}`);
  if (step.course?.fetched === true) facts.push("part not in the van");
  if (step.energy !== "any" && step.energy !== "plug out") facts.push(`LIVE, ${step.energy}`);
  return facts.join(" · ");
}

/** One act of getting ready. */
export function actInWords(act: SetUpAct): string {
  switch (act.do) {
    case "open": {
      const tools = act.tools.length > 0 ? ` with ${act.tools.join(", ")}` : "";
      const needs = act.needs.length > 0 ? `; needs ${act.needs.join(", ")}` : "";
      return `open ${act.says}${tools} (${minutesInWords(act.minutes)})${needs}`;
    }
    case "close":
      return `put back ${act.says} (${minutesInWords(act.minutes)})`;
    case "move":
      return `machine ${act.position}`;
    case "take":
      return `take the ${act.instrument}`;
    case "pull":
      return `pull connector ${act.plug}`;
    default:
      return act.do;
  }
}

/** A charge that may still be there, and how it is got rid of. */
export function chargeInWords(charge: StoredEnergy): string {
  const joules = formatAmount(charge.joules, "J", 2);
  const bleed =
    charge.bleedSeconds === undefined
      ? "no bleed of its own"
      : `under 34 V after ${charge.bleedSeconds.toFixed(1)} s by its own bleed, if that is whole`;
  return `${charge.says} may hold ${joules} at ${Math.round(charge.volts)} V; ${bleed}; ${charge.clipSeconds < 0.1 ? "at once" : `${charge.clipSeconds.toFixed(1)} s`} through a ${formatAmount(charge.clipOhms, "Ohm", 2)} clip resistor.`;
}
