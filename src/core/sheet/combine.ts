import type { Issue } from "../issue/index.ts";
import { didYouMean } from "../part/index.ts";
import type { Sheet, Slot } from "./sheet.ts";
import { slotsIn, slotTestHolds } from "./slot-test.ts";

/** One way the slots may be filled: slot → variant (a slot that is not there is left out), and how common it is. */
export interface Combination {
  readonly choice: ReadonlyMap<string, string>;
  /** Share among the combinations that the answers allow; they sum to 1. */
  readonly weight: number;
}

/**
 * All allowed ways to fill the slots, the commonest first, given the answers that are known.
 * A weight is the product of the variants' shares, renormalised over what `only-if` and the answers leave.
 * Empty when the answers contradict one another or the sheet; `checkAnswers` says why.
 */
export function combinations(sheet: Sheet, answers: ReadonlyMap<string, string> = new Map()): readonly Combination[] {
  const found: { choice: Map<string, string>; weight: number }[] = [];
  const order = inOrderOfNeed(sheet.slots);
  const fill = (index: number, choice: Map<string, string>, weight: number): void => {
    const slot = order[index];
    if (slot === undefined) {
      if (allowed(sheet, choice)) found.push({ choice: new Map(choice), weight });
      return;
    }
    const answer = answers.get(slot.id);
    if (slot.onlyIf !== undefined && !slotTestHolds(slot.onlyIf, choice)) {
      if (answer === undefined) fill(index + 1, choice, weight);
      return;
    }
    for (const variant of slot.variants.values()) {
      if (answer !== undefined && answer !== variant.id) continue;
      choice.set(slot.id, variant.id);
      fill(index + 1, choice, weight * (variant.share / 100));
      choice.delete(slot.id);
    }
  };
  fill(0, new Map(), 1);
  const total = found.reduce((sum, one) => sum + one.weight, 0);
  if (!(total > 0)) return [];
  const kept = found
    .filter((one) => one.weight > 0)
    .map(({ choice, weight }) => ({ choice: inFileOrder(sheet, choice), weight: weight / total }));
  return kept.sort((a, b) => b.weight - a.weight);
}

/** What is wrong with answers to slot questions: unknown slots, unknown variants, answers that exclude one another. */
export function checkAnswers(sheet: Sheet, answers: ReadonlyMap<string, string>): readonly Issue[] {
  const issues: Issue[] = [];
  const add = (slot: string, found: string, expected: string, hint?: string) =>
    issues.push({
      code: "sheet.answer",
      severity: "error",
      at: ["answers", slot],
      found,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
  for (const [id, variant] of answers) {
    const slot = sheet.slots.get(id);
    if (slot === undefined) add(id, `"${id}"`, "a slot of this sheet", didYouMean(id, sheet.slots.keys()));
    else if (!slot.variants.has(variant)) {
      add(id, `"${variant}"`, `a variant of ${id}`, didYouMean(variant, slot.variants.keys()));
    }
  }
  if (issues.length === 0 && combinations(sheet, answers).length === 0) {
    const said = [...answers].map(([slot, variant]) => `${slot}: ${variant}`).join(", ");
    add(
      [...answers.keys()].at(-1) ?? "",
      said,
      "answers that one machine can have together",
      "Look at the machine again.",
    );
  }
  return issues;
}

/** Every slot's question and how its variants are told apart by a look. */
export function slotWords(
  sheet: Sheet,
): ReadonlyMap<string, { readonly ask: string; readonly looks: ReadonlyMap<string, string> }> {
  return new Map(
    [...sheet.slots.values()].map(({ id, ask, variants }) => {
      const looks = new Map([...variants.values()].map((variant) => [variant.id, variant.look ?? variant.id]));
      return [id, { ask, looks }];
    }),
  );
}

function allowed(sheet: Sheet, choice: ReadonlyMap<string, string>): boolean {
  for (const [slot, variant] of choice) {
    const test = sheet.slots.get(slot)?.variants.get(variant)?.onlyIf;
    if (test !== undefined && !slotTestHolds(test, choice)) return false;
  }
  return true;
}

/** Slots ordered so that each comes after those its own `only-if` looks at. */
function inOrderOfNeed(slots: ReadonlyMap<string, Slot>): readonly Slot[] {
  const order = new Set<Slot>();
  const place = (slot: Slot, depth: number): void => {
    if (order.has(slot) || depth > slots.size) return;
    for (const other of slot.onlyIf === undefined ? [] : slotsIn(slot.onlyIf)) {
      const needed = slots.get(other);
      if (needed !== undefined) place(needed, depth + 1);
    }
    order.add(slot);
  };
  for (const slot of slots.values()) place(slot, 0);
  return [...order];
}

function inFileOrder(sheet: Sheet, choice: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  const sorted = new Map<string, string>();
  for (const slot of sheet.slots.keys()) {
    const variant = choice.get(slot);
    if (variant !== undefined) sorted.set(slot, variant);
  }
  return sorted;
}
