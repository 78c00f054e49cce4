/**
 * The known word nearest to what was typed, for "did you mean"; none when nothing is near.
 * Near: at most two slips (letters wrong, missing, extra or swapped), and fewer than half of the letters.
 *
 * @source optimal string alignment distance (Damerau 1964, from memory)
 */
export function nearest(typed: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.min(2, Math.ceil(typed.length / 2) - 1) + 1;
  const lower = typed.toLowerCase();
  for (const word of known) {
    if (Math.abs(word.length - typed.length) > 2 || word === typed) continue;
    const slips = word.toLowerCase() === lower ? 0 : distance(lower, word.toLowerCase());
    if (slips < least) {
      least = slips;
      best = word;
    }
  }
  return best;
}

/** "Did you mean x?", or what there is to choose from while that is short. */
export function didYouMean(typed: string, known: Iterable<string>): string | undefined {
  const words = [...known];
  const near = nearest(typed, words);
  if (near !== undefined) return `Did you mean ${near}?`;
  if (words.length === 0 || words.length > 24) return undefined;
  return `There ${words.length === 1 ? "is" : "are"}: ${words.join(" · ")}.`;
}

function distance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let slips = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        slips = Math.min(slips, (before[j - 2] ?? 0) + 1);
      }
      row.push(slips);
    }
    before = above;
    above = row;
  }
  return above[b.length] ?? 0;
}
