import type { IssueList } from "../issue/index.ts";

/** One card of a deck: continuation lines joined, comments gone, cut at blanks. */
export interface Card {
  readonly words: readonly string[];
  /** Line on which it begins, 1-based. */
  readonly line: number;
}

/** Cuts a deck into its title and its cards. The first line is the title, whatever it holds. */
export function deckCards(text: string, issues: IssueList, file?: string): { title: string; cards: Card[] } {
  const [title, ...lines] = text.split(/\r\n|\r|\n/);
  const cards: { words: string[]; line: number }[] = [];
  lines.forEach((raw, at) => {
    const line = at + 2;
    const content = raw.replace(/(;|\s\$).*$/, "").trim();
    if (content === "" || content.startsWith("*")) return;
    if (!content.startsWith("+")) {
      cards.push({ words: content.split(/\s+/), line });
      return;
    }
    const before = cards.at(-1);
    const words = content
      .slice(1)
      .trim()
      .split(/\s+/)
      .filter((word) => word !== "");
    if (before !== undefined) before.words.push(...words);
    else
      issues.add({
        code: "deck.continuation.first",
        severity: "error",
        ...(file === undefined ? {} : { file }),
        line,
        at: [],
        found: `"${content}"`,
        expected: "a card for it to continue",
      });
  });
  return { title: title.trim(), cards };
}
