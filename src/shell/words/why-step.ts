import type { ReadGood } from "../../core/ledger/index.ts";
import type { PlanStep } from "../../core/plan/index.ts";
import { alternatives } from "./list.ts";
import { placeInWords, shownInWords } from "./observation.ts";

/** Good readings that are named beside a step, the last ones. */
const mostNamed = 2;

/** Why a step is taken: what was already read good and narrowed the question, then what the step settles. */
export function whyStepInWords({ settles, questions }: PlanStep, good: readonly ReadGood[] = []): string {
  const last = questions.length === 0 ? [] : good.slice(-mostNamed);
  if (settles === "" || last.length === 0) return settles;
  const cleared = alternatives([...new Set(last.flatMap(({ clears }) => clears))]);
  const read = last.map(({ reading }) => `${placeInWords(reading.probe)} read ${shownInWords(reading)}`).join("; ");
  return `${read}: good, so hardly ${cleared}; this ${settles}`;
}
