import type { PlanStep } from "../../../core/plan/index.ts";
import { minutesInWords } from "../../words/odds.ts";
import { text } from "../english.ts";

/** Minutes, price and how live a step is, in one line. */
export function stepFacts(step: PlanStep, currency: string): string {
  const facts = [minutesInWords(step.minutes)];
  const price = step.course?.price ?? 0;
  if (price > 0) facts.push(`${text.step.part} ${Math.round(price)} ${currency}`);
  if (step.course?.fetched === true) facts.push(text.step.fetched);
  if (step.energy !== "any" && step.energy !== "plug out") facts.push(`${text.state.live}, ${step.energy}`);
  return facts.join(" · ");
}
