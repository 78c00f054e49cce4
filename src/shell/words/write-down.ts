import { type WrittenEvent, writtenAct, writtenQuestion } from "../../core/ledger/index.ts";
import type { PlanStep } from "../../core/plan/index.ts";
import { remediesIn } from "../../core/remedy/index.ts";
import type { Observation } from "../../core/sign/index.ts";

/** The lines to put into a job file when a step is taken: getting ready, what is found, what is mended. */
export function linesToWrite(step: PlanStep): string[] {
  const { setUp, questions, course } = step;
  const ready = setUp.flatMap((act) => {
    const event = writtenAct(act);
    return event === undefined ? [] : [lineOf(event)];
  });
  const done = (course === undefined ? [] : remediesIn(course.id)).map(
    ({ on, remedy }) => `- did: {remedy: ${JSON.stringify(remedy)}, on: ${JSON.stringify(on)}, worked: ?}`,
  );
  return [...ready, ...questions.map(({ observation }) => lineToWrite(observation)), ...done];
}

/** The line to put into a job file for something to be learned, with a `?` where the answer goes. */
export function lineToWrite(observation: Observation): string {
  return lineOf(writtenQuestion(observation));
}

function lineOf({ kind, body }: WrittenEvent): string {
  return `- ${kind}: ${flow(body)}`;
}

/** YAML on one line, as people type it. */
function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.join(", ")}]`;
  if (typeof value !== "object" || value === null) return String(value);
  return `{${Object.entries(value)
    .map(([key, inner]) => `${key}: ${flow(inner)}`)
    .join(", ")}}`;
}
