import { type Checked, IssueList } from "../issue/index.ts";
import { assemble, checkAnswers, combinations, type Library, type Machine, type Sheet } from "../sheet/index.ts";
import { worthLooking } from "./candidates.ts";
import { foreseeing } from "./foresee.ts";
import type { Foresight } from "./foresight.ts";
import { ForeseenCase } from "./make-case.ts";
import { type PriorOptions, priorOf } from "./prior.ts";

/** What is known of a machine before anything is asked of it. */
export interface CaseAsk extends PriorOptions {
  readonly sheet: Sheet;
  readonly library: Library;
  /** Slots whose variant is known. */
  readonly answers?: ReadonlyMap<string, string>;
  /** "Mine differs": `cut-out absent`, `heater.P is 1000 W`. */
  readonly differences?: readonly string[];
  /** Most ways of filling open slots that are looked at. */
  readonly candidatesAtMost?: number;
}

/**
 * Opens a case: the candidate machines that the open slots leave, every fault on each, and their prior odds.
 * Nothing is run or solved yet; each observation makes what it needs.
 *
 * @returns the case, or every issue in answers and differences
 */
export function openCase(ask: CaseAsk): Checked<ForeseenCase> {
  const issues = new IssueList();
  const answers = ask.answers ?? new Map<string, string>();
  for (const issue of checkAnswers(ask.sheet, answers)) issues.add(issue);
  if (issues.hasErrors) return { ok: false, issues: issues.all };

  const chosen = worthLooking(combinations(ask.sheet, answers), ask.candidatesAtMost);
  const machines: { machine: Machine; weight: number }[] = [];
  let warned = false;
  for (const { choice, weight } of chosen) {
    const made = assemble(ask.sheet, ask.library, choice, ask.differences ?? []);
    // All candidates are one sheet: what is wrong with the first is wrong with all, and said once.
    if (!made.ok) return made;
    if (!warned) for (const warning of made.warnings) issues.add(warning);
    warned = true;
    machines.push({ machine: made.value, weight });
  }
  return issues.conclude(() => caseOn(machines, ask));
}

/** A case on machines already assembled. */
export function caseOn(
  machines: readonly { readonly machine: Machine; readonly weight: number }[],
  options: PriorOptions = {},
): ForeseenCase {
  return caseFrom(
    machines.map(({ machine, weight }) => ({ foresight: foreseeing(machine), weight })),
    options,
  );
}

/** A case on whatever can foresee. */
export function caseFrom(
  candidates: readonly { readonly foresight: Foresight; readonly weight: number }[],
  options: PriorOptions = {},
): ForeseenCase {
  return new ForeseenCase(
    candidates.map(({ foresight }) => foresight),
    candidates.map(({ weight }) => weight),
    priorOf(candidates, options),
  );
}
