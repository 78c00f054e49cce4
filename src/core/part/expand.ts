import type { IssueList } from "../issue/index.ts";
import { didYouMean } from "./nearest.ts";
import type { Place } from "./place.ts";
import type { Tree, TreeEntry, TreeMap } from "./tree.ts";

const letterPattern = /<([a-z][a-z0-9-]*)>/g;
const foldPattern = /\b(sum|all|any|max|min)<([a-z][a-z0-9-]*)>\(/;
const joiners: Readonly<Record<string, string>> = { sum: " + ", all: " and ", any: " or ", max: " ; ", min: " ; " };
/** What a fold over nothing is. */
const empties: Readonly<Record<string, string>> = { sum: "0", all: "1", any: "0", max: "0", min: "0" };

/** More copies than this of one kind's entries are a mistake, or an attack. */
const MOST_COPIES = 2000;
const MOST_FORMULA_CHARACTERS = 20_000;

export interface Expansion {
  /** Template letter → how many there are. */
  readonly counts: ReadonlyMap<string, number>;
  /** Does the condition behind `if:` hold? `undefined` after it refused to say (an issue is in the list). */
  readonly holds: (condition: string, place: Place) => boolean | undefined;
  readonly issues: IssueList;
  readonly file?: string;
}

/**
 * A kind's tree with its templates written out.
 *
 * A key that holds `<p>` repeats with what stands behind it; so does a list member that mentions `<p>`; `sum<p>(...)`,
 * `all`, `any`, `max`, `min` fold a formula; a word the kind `gives` is summed when only its formula mentions `<p>`.
 * A map whose `if:` does not hold is gone.
 */
export function expandTree(tree: TreeMap, expansion: Expansion): TreeMap {
  const { counts, issues } = expansion;
  const refuse = (line: number, at: Place["at"], code: string, found: string, expected: string, hint?: string): void =>
    issues.add({
      code,
      severity: "error",
      ...(expansion.file === undefined ? {} : { file: expansion.file }),
      line,
      at,
      found,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });

  let copiesLeft = MOST_COPIES;
  const mayCopy = (count: number, line: number, at: Place["at"]): boolean => {
    if (copiesLeft < 0) return false;
    copiesLeft -= count;
    if (copiesLeft >= 0) return true;
    refuse(line, at, "part.template.too-many", `more than ${MOST_COPIES} copies`, `at most ${MOST_COPIES} in one kind`);
    return false;
  };

  const text = (written: string, line: number, at: Place["at"]): string => {
    if (!written.includes("<")) return written;
    const summed = at[0] === "gives" && at.length === 2 ? sumOverLetters(written) : written;
    const folded = fold(summed, counts);
    for (const letter of lettersIn(folded)) {
      if (counts.has(letter)) {
        refuse(
          line,
          at,
          "part.template.alone",
          `<${letter}> where nothing repeats`,
          `<${letter}> in a key or a list member, or inside sum<${letter}>( )`,
        );
      } else {
        const hint = didYouMean(letter, counts.keys());
        refuse(line, at, "part.template.no-count", `<${letter}>`, `a letter that "per" counts`, hint);
      }
    }
    return folded;
  };

  const map = (node: TreeMap, at: Place["at"]): TreeMap => {
    const entries = new Map<string, TreeEntry>();
    const put = (key: string, line: number, value: Tree, copies: number): void => {
      const letter = lettersIn(key).find((candidate) => counts.has(candidate));
      if (letter !== undefined) {
        const count = counts.get(letter) ?? 0;
        if (!mayCopy(count, line, [...at, key])) return;
        for (let i = 1; i <= count; i++) {
          put(substitute(key, letter, i), line, substituteTree(value, letter, i), copies * count);
        }
        return;
      }
      const whole = text(key, line, [...at, key]);
      if (entries.has(whole)) {
        refuse(line, [...at, whole], "part.template.twice", `${whole} a second time`, `${whole} once`);
        return;
      }
      if (!keeps(value, [...at, whole])) return;
      entries.set(whole, { line, value: any(value, [...at, whole]), ...(copies === 1 ? {} : { copies }) });
    };
    for (const [key, entry] of node.entries) if (key !== "if") put(key, entry.line, entry.value, 1);
    return { ...node, entries };
  };

  const keeps = (node: Tree, at: Place["at"]): boolean => {
    const condition = node.is === "map" ? node.entries.get("if")?.value : undefined;
    if (condition === undefined) return true;
    if (condition.is !== "text") {
      refuse(condition.line, [...at, "if"], "part.if", "a list or map", "a condition");
      return true;
    }
    const place = { ...(expansion.file === undefined ? {} : { file: expansion.file }), line: condition.line };
    return expansion.holds(condition.text, { ...place, at: [...at, "if"] }) ?? true;
  };

  /** A list member once for each value of the letters it mentions. */
  const repeated = (item: Tree, at: Place["at"]): readonly Tree[] => {
    const letter = lettersInTree(item).find((candidate) => counts.has(candidate));
    if (letter === undefined) return [item];
    const count = counts.get(letter) ?? 0;
    if (!mayCopy(count, item.line, at)) return [];
    return Array.from({ length: count }, (_, i) => substituteTree(item, letter, i + 1)).flatMap((copy) =>
      repeated(copy, at),
    );
  };

  const any = (node: Tree, at: Place["at"]): Tree => {
    if (node.is === "text") return { ...node, text: text(node.text, node.line, at) };
    if (node.is === "map") return map(node, at);
    const items = counts.size === 0 ? node.items : node.items.flatMap((item) => repeated(foldTree(item, counts), at));
    return { ...node, items: items.filter((item) => keeps(item, at)).map((item, index) => any(item, [...at, index])) };
  };
  return map(tree, []);
}

function lettersIn(text: string): readonly string[] {
  if (!text.includes("<")) return [];
  return [...text.matchAll(letterPattern)].map((match) => match[1] ?? "");
}

function lettersInTree(tree: Tree): readonly string[] {
  if (tree.is === "text") return lettersIn(tree.text);
  if (tree.is === "list") return tree.items.flatMap(lettersInTree);
  return [...tree.entries].flatMap(([key, entry]) => [...lettersIn(key), ...lettersInTree(entry.value)]);
}

function substitute(text: string, letter: string, value: number): string {
  return text.replaceAll(`<${letter}>`, String(value));
}

function substituteTree(tree: Tree, letter: string, value: number): Tree {
  return mapTexts(tree, (text) => substitute(text, letter, value));
}

function foldTree(tree: Tree, counts: ReadonlyMap<string, number>): Tree {
  return mapTexts(tree, (text) => fold(text, counts));
}

function mapTexts(tree: Tree, change: (text: string) => string): Tree {
  if (tree.is === "text") return { ...tree, text: change(tree.text) };
  if (tree.is === "list") return { ...tree, items: tree.items.map((item) => mapTexts(item, change)) };
  const entries = [...tree.entries].map(
    ([key, entry]) => [change(key), { ...entry, value: mapTexts(entry.value, change) }] as const,
  );
  return { ...tree, entries: new Map(entries) };
}

/** `first<s>.watts` as `sum<s>(first<s>.watts)`, for every letter that stands outside a fold already written. */
function sumOverLetters(text: string): string {
  const folded = new Set(
    [...text.matchAll(/\b(?:sum|all|any|max|min)<([a-z][a-z0-9-]*)>\(/g)].map((match) => match[1]),
  );
  const open = new Set(lettersIn(text).filter((letter) => !folded.has(letter)));
  return [...open].reduce((inner, letter) => `sum<${letter}>(${inner})`, text);
}

/** Writes out `sum<p>( ... )` and its like, innermost last. */
function fold(text: string, counts: ReadonlyMap<string, number>): string {
  const match = foldPattern.exec(text);
  if (match === null || text.length > MOST_FORMULA_CHARACTERS) return text;
  const [opening, word = "", letter = ""] = match;
  const count = counts.get(letter);
  const start = match.index + opening.length;
  const end = closingBracket(text, start);
  if (count === undefined || end === undefined) return text;
  const inner = text.slice(start, end);
  const copies = Array.from({ length: count }, (_, i) => `(${substitute(inner, letter, i + 1)})`);
  const joined = copies.length < 2 ? (copies[0] ?? empties[word] ?? "0") : copies.join(joiners[word]);
  const called = copies.length > 1 && (word === "max" || word === "min") ? `${word}(${joined})` : `(${joined})`;
  return fold(text.slice(0, match.index) + called + text.slice(end + 1), counts);
}

function closingBracket(text: string, start: number): number | undefined {
  let depth = 1;
  for (let i = start; i < text.length; i++) {
    if (text[i] === "(") depth++;
    if (text[i] === ")" && --depth === 0) return i;
  }
  return undefined;
}
