import type { Issue } from "../../core/issue/index.ts";
import {
  assemble,
  checkAnswers,
  combinations,
  type Library,
  type Machine,
  type Sheet,
} from "../../core/sheet/index.ts";
import { need, Refused } from "./outcome.ts";

/** One machine of a family: the answers given, and for every slot left open the commonest variant. */
export function commonestMachine(
  sheet: Sheet,
  library: Library,
  answers: ReadonlyMap<string, string>,
  differences: readonly string[] = [],
): Machine {
  const wrong: readonly Issue[] = checkAnswers(sheet, answers);
  if (wrong.length > 0) throw new Refused(wrong);
  const [first, ...rest] = combinations(sheet, answers);
  if (first === undefined) throw new Error("answers that checkAnswers let pass leave no combination");
  const commonest = rest.reduce((best, next) => (next.weight > best.weight ? next : best), first);
  return need(assemble(sheet, library, commonest.choice, differences));
}

/** "air: condenser · stages: two": which machine of the family this is about. */
export function choiceInWords(machine: Machine): string {
  return [...machine.choice].map(([slot, variant]) => `${slot}: ${variant}`).join(" · ");
}
