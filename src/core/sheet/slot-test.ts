import { accept, type Checked, refuse } from "../issue/index.ts";
import { didYouMean, type Place } from "../part/index.ts";

/** A condition on which variants fill the slots: `stages is two and control is not timer`. */
export type SlotTest =
  | { readonly is: "and" | "or"; readonly of: readonly SlotTest[] }
  | { readonly is: "chosen"; readonly slot: string; readonly variant: string; readonly not: boolean };

/** Names of the slots and of the variants of each. */
export type SlotNames = ReadonlyMap<string, readonly string[]>;

/**
 * Parses a condition on slots. Names of variants may hold spaces and commas, so they are matched against those that
 * the sheet has, the longest first. `and` binds tighter than `or`.
 *
 * @example parseSlotTest("control is not timer", new Map([["control", ["timer", "board"]]]), place)
 */
export function parseSlotTest(text: string, slots: SlotNames, place: Place): Checked<SlotTest> {
  const alternatives: SlotTest[] = [];
  let factors: SlotTest[] = [];
  let rest = text.trim();
  for (;;) {
    const slot = longestStart(rest, slots.keys());
    const verb = slot === undefined ? undefined : /^\s+is(\s+not)?\s+/.exec(rest.slice(slot.length));
    if (slot === undefined || verb === null || verb === undefined) {
      return bad(
        place,
        text,
        "<slot> is <variant>, or <slot> is not <variant>",
        didYouMean(firstWord(rest), slots.keys()),
      );
    }
    const afterVerb = rest.slice(slot.length + verb[0].length);
    const variants = slots.get(slot) ?? [];
    const variant = longestStart(afterVerb, variants);
    if (variant === undefined) {
      return bad(place, text, `a variant of ${slot}`, didYouMean(afterVerb, variants));
    }
    factors.push({ is: "chosen", slot, variant, not: verb[1] !== undefined });
    rest = afterVerb.slice(variant.length);
    const joint = /^\s+(and|or)\s+/.exec(rest);
    if (joint === null) break;
    if (joint[1] === "or") {
      alternatives.push({ is: "and", of: factors });
      factors = [];
    }
    rest = rest.slice(joint[0].length);
  }
  if (rest.trim() !== "") return bad(place, text, "and, or, or nothing more", undefined);
  alternatives.push({ is: "and", of: factors });
  return accept({ is: "or", of: alternatives });
}

/** Does the condition hold for this choice? A slot that is not there is not any variant. */
export function slotTestHolds(test: SlotTest, choice: ReadonlyMap<string, string>): boolean {
  switch (test.is) {
    case "and":
      return test.of.every((part) => slotTestHolds(part, choice));
    case "or":
      return test.of.some((part) => slotTestHolds(part, choice));
    case "chosen":
      return (choice.get(test.slot) === test.variant) !== test.not;
  }
}

/** Slots that a condition looks at. */
export function slotsIn(test: SlotTest): readonly string[] {
  return test.is === "chosen" ? [test.slot] : test.of.flatMap(slotsIn);
}

function longestStart(text: string, names: Iterable<string>): string | undefined {
  let best: string | undefined;
  for (const name of names) {
    const follows = text.charAt(name.length);
    if (text.startsWith(name) && (follows === "" || follows === " ") && name.length > (best?.length ?? -1)) best = name;
  }
  return best;
}

function firstWord(text: string): string {
  return text.split(" ", 1)[0] ?? "";
}

function bad(place: Place, text: string, expected: string, hint: string | undefined): Checked<never> {
  const note = hint === undefined ? {} : { hint };
  return refuse({ code: "sheet.slot-test", severity: "error", ...place, found: `"${text}"`, expected, ...note });
}
