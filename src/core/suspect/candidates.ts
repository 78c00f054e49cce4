import type { Combination } from "../sheet/index.ts";

/** With no more combinations than this, all of them are looked at. */
const ALL_OF = 12;

/**
 * The combinations of slots worth looking at: all when few; else the commonest, for each open slot and each of its
 * variants the commonest that has it (so that no answer finds the case empty), and the heaviest of the rest.
 * Weights are renormalised over what is kept, slot by slot shares held as near as the kept ones allow.
 */
export function worthLooking(combinations: readonly Combination[], atMost: number = ALL_OF): readonly Combination[] {
  if (combinations.length <= atMost) return combinations;
  const kept = new Set<Combination>();
  const covered = new Set<string>();
  const [reference] = combinations;
  for (const combination of combinations) {
    const fresh = [...combination.choice].filter(([slot, variant]) => !covered.has(`${slot}: ${variant}`));
    // The nearest to the reference that brings a variant nobody has yet; `combinations` come heaviest first.
    if (combination !== reference && fresh.length === 0) continue;
    kept.add(combination);
    for (const [slot, variant] of fresh) covered.add(`${slot}: ${variant}`);
  }
  for (const combination of combinations) {
    if (kept.size >= atMost) break;
    kept.add(combination);
  }
  const chosen = combinations.filter((combination) => kept.has(combination));
  const total = chosen.reduce((sum, { weight }) => sum + weight, 0);
  return chosen.map(({ choice, weight }) => ({ choice, weight: weight / total }));
}
