import type { Checked } from "../issue/index.ts";
import { type Cursor, readWith } from "./cursor.ts";
import { instantiateWith } from "./instantiate.ts";
import type { Kind, RatingAsked } from "./kind.ts";
import { didYouMean } from "./nearest.ts";
import { parseExpression } from "./parse.ts";
import { checkPatterns } from "./pattern.ts";

export const KIND_KEYS = [
  "says",
  "note",
  "asks",
  "words",
  "per",
  "pins",
  "elements",
  "states",
  "keeps",
  "moves",
  "knobs",
  "gives",
  "sees",
  "modes",
  "looks",
  "remedies",
  "bench",
  "duty",
  "hazards",
  "bench-hazards",
  "when-absent",
  "share",
] as const;

/**
 * Reads one part kind (`data/kinds/<id>.yaml`) and tries it out with its defaults, so that whatever is wrong in it
 * comes out here and not in the sheet that uses it. What must be given is taken as 1 for the trial.
 *
 * @param file  its name, without folder and ending, becomes the kind's id
 * @returns     the kind; or every issue, each with file, line and path
 */
export function readKind(text: string, file: string): Checked<Kind> {
  return readWith(text, file, (root) => {
    if (root.tree.is !== "map") return root.refuse("part.kind", "a map that begins with says:");
    root.onlyKeys(KIND_KEYS);
    const says = root.need("says", "says: what a technician calls it")?.word();
    if (root.field("source") === undefined && root.issues.all.length === 0) {
      root.warn("part.kind.no-source", "a source: for the numbers of this file", undefined, "no source");
    }
    const asks = readAsks(root);
    const per = new Map<string, string>();
    for (const [letter, at] of root.field("per")?.entries() ?? []) {
      const counted = at.word("the rating that counts it");
      if (counted === undefined) continue;
      if (asks.get(counted)?.is === "amount") per.set(letter, counted);
      else at.refuse("part.kind.per", "a rating that this kind asks", didYouMean(counted, asks.keys()));
    }
    checkShares(root.field("modes"));
    checkPatterns(root);
    if (says === undefined || root.issues.hasErrors) return undefined;
    const id = (file.split(/[\\/]/).at(-1) ?? file).replace(/\.[^.]*$/, "");
    const kind: Kind = { id, says, asks, per, tree: root.tree, file, ...(root.source ? { source: root.source } : {}) };
    // The trial's own issues hold all that is wrong; its value is thrown away.
    instantiateWith(kind, trialRatings(kind), root.issues);
    return kind;
  });
}

function readAsks(root: Cursor): ReadonlyMap<string, RatingAsked> {
  const asks = new Map<string, RatingAsked>();
  for (const [name, at] of root.field("asks")?.entries() ?? []) {
    const asked = readAsked(at);
    if (asked !== undefined) asks.set(name, asked);
  }
  for (const [name, at] of root.field("words")?.entries() ?? []) {
    const words = at.words();
    if (words.length === 0) at.refuse("part.kind.words", "one word or more; the first is the default");
    else asks.set(name, { is: "word", words });
  }
  return asks;
}

/** `400R ±10%` · nothing, or `needed` · `formula`, `formula door > 0`, `door > 0` · `isolated | on mains`. */
function readAsked(at: Cursor): RatingAsked | undefined {
  const text = at.text("a default, or needed");
  if (text === undefined) return undefined;
  if (text === "" || text === "needed") return { is: "amount" };
  if (text.includes(" | ")) return { is: "word", words: text.split(" | ").map((word) => word.trim()) };
  if (/^formula\b|[<>=≤≥]|\b(and|or|not)\b/.test(text)) {
    const formula = text.replace(/^formula\s*/, "");
    if (formula === "") return { is: "formula" };
    const otherwise = at.issues.take(parseExpression(formula, at.place));
    return otherwise === undefined ? undefined : { is: "formula", otherwise };
  }
  const otherwise = at.amount();
  return otherwise === undefined ? undefined : { is: "amount", otherwise };
}

/** Shares as written make 100; not asked where some modes come and go with an `if`. */
function checkShares(modes: Cursor | undefined): void {
  const entries = modes?.entries() ?? [];
  if (modes === undefined || entries.length === 0 || entries.some(([, mode]) => mode.field("if") !== undefined)) return;
  const total = entries.reduce((sum, [, mode]) => sum + Number(mode.field("share")?.text() ?? 0), 0);
  if (Math.abs(total - 100) <= 1) return;
  const found = `shares that make ${Math.round(total * 10) / 10}`;
  modes.warn("part.kind.shares", "shares that make 100 (± 1)", undefined, found);
}

function trialRatings(kind: Kind): ReadonlyMap<string, { readonly text: string; readonly line: number }> {
  const ratings = new Map<string, { text: string; line: number }>();
  for (const [name, asked] of kind.asks) {
    if (asked.is !== "word" && asked.otherwise === undefined) ratings.set(name, { text: "1", line: kind.tree.line });
  }
  return ratings;
}
