import { type Checked, IssueList } from "../issue/index.ts";
import { type Pieces, toItsEnd } from "../pace/index.ts";
import { checkAnswers, combinations, type Library, type Machine, type Sheet } from "../sheet/index.ts";
import { worthLooking } from "./candidates.ts";
import { foreseeing } from "./foresee.ts";
import type { Foresight } from "./foresight.ts";
import { KeptForesights } from "./kept-foresights.ts";
import { ForeseenCase } from "./make-case.ts";
import { type Entry, type PriorOptions, priorOf } from "./prior.ts";

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
  /** Where what one case has worked out is kept for the next. */
  readonly kept?: KeptForesights;
}

/**
 * Opens a case: the candidate machines that the open slots leave, every fault on each, and their prior odds.
 * Nothing is run or solved yet; each observation makes what it needs.
 *
 * @returns the case, or every issue in answers and differences
 */
export function openCase(ask: CaseAsk): Checked<ForeseenCase> {
  return toItsEnd(openingCase(ask));
}

/** The same in pieces: one a machine, and one for its odds. */
export function* openingCase(ask: CaseAsk): Pieces<Checked<ForeseenCase>> {
  const issues = new IssueList();
  const answers = ask.answers ?? new Map<string, string>();
  for (const issue of checkAnswers(ask.sheet, answers)) issues.add(issue);
  if (issues.hasErrors) return { ok: false, issues: issues.all };

  const { sheet, library, differences = [], kept = new KeptForesights() } = ask;
  const candidates: { foresight: Foresight; weight: number }[] = [];
  for (const { choice, weight } of worthLooking(combinations(sheet, answers), ask.candidatesAtMost)) {
    const made = kept.of(sheet, library, choice, differences);
    // All candidates are one sheet: what is wrong with the first is wrong with all, and said once.
    if (!made.ok) return made;
    if (candidates.length === 0) for (const warning of made.warnings) issues.add(warning);
    candidates.push({ foresight: made.value, weight });
    yield;
  }
  const hypotheses = yield* priorOf(candidates, ask);
  return issues.conclude(() => caseOf(candidates, hypotheses));
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
  return caseOf(candidates, toItsEnd(priorOf(candidates, options)));
}

function caseOf(
  candidates: readonly { readonly foresight: Foresight; readonly weight: number }[],
  hypotheses: readonly Entry[],
): ForeseenCase {
  return new ForeseenCase(
    candidates.map(({ foresight }) => foresight),
    candidates.map(({ weight }) => weight),
    hypotheses,
  );
}
