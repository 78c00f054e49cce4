import type { Plan } from "../../core/plan/index.ts";
import { width, wrap } from "./wrap.ts";

/** What a search to the end of the job made of the next step: what it costs from here, the bound, and the quick answer beside it. */
export function refinedInWords(plan: Plan, currency: string): string[] {
  const { refined } = plan;
  if (refined === undefined)
    return ["Searched to the end", ...told("What comes next is no choice: there was nothing to search.")];
  const { expectedCost, lowerBound, quick, differs, exact } = refined;
  const money = (amount: number): string => `${amount.toFixed(0)} ${currency}`;
  const bound = exact
    ? "and none of the ways reckoned with costs less"
    : `none of the ways reckoned with costs less than ${money(lowerBound)}`;
  const quickly = plan.steps.find(({ id }) => id === quick.step)?.says ?? quick.step;
  const verdict = differs
    ? `This step instead of the quick answer ("${quickly}"): about ${money(expectedCost)} from here to the end of the job instead of ${money(quick.expectedCost)}; ${bound}.`
    : `The quick answer stands: about ${money(quick.expectedCost)} from here to the end of the job; ${bound}.`;
  const left = (100 * refined.leftOut).toFixed(0);
  const size = `Reckoned on ${refined.causes} groups of possible faults (${left} in 100 of the odds left out), ${refined.tests} steps that tell and ${refined.remedies} ways to mend; ${refined.work} situations looked into.`;
  return ["Searched to the end", ...told(verdict), ...told(size)];
}

function told(text: string): string[] {
  return wrap(text, width, "  ", "  ");
}
