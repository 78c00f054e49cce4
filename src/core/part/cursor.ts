import { type Checked, type Issue, IssueList } from "../issue/index.ts";
import { parseAmount, type Rated, type Source, type Want } from "../quantity/index.ts";
import { didYouMean, nearest } from "./nearest.ts";
import type { Place } from "./place.ts";
import { readTree } from "./read-tree.ts";
import { readSource } from "./source.ts";
import type { Tree } from "./tree.ts";

/**
 * A position in a tree that is being read. Every question that the tree cannot answer becomes an issue in the shared
 * list and the answer is `undefined`, so that a whole file is read in one go.
 */
export class Cursor {
  readonly tree: Tree;
  readonly place: Place;
  readonly issues: IssueList;
  /** Source of the numbers below: the nearest `source:` of an enclosing block. */
  readonly source: Source | undefined;
  /** Line of the key that leads here (of the value itself in a list). */
  readonly keyLine: number;

  constructor(tree: Tree, place: Place, issues: IssueList, source?: Source, keyLine = tree.line) {
    this.tree = tree;
    this.place = { ...place, line: tree.is === "text" ? tree.line : keyLine };
    this.issues = issues;
    this.source = source;
    this.keyLine = keyLine;
    const own = tree.is === "map" ? tree.entries.get("source")?.value : undefined;
    if (own?.is === "text") {
      this.source =
        issues.take(readSource(own.text, { ...place, line: own.line, at: [...place.at, "source"] })) ?? source;
    }
  }

  get line(): number {
    return this.tree.line;
  }

  /** Last key of the path: the name of what stands here. */
  get name(): string {
    return String(this.place.at.at(-1) ?? "");
  }

  /** Nothing was written behind the key. */
  get isEmpty(): boolean {
    return this.tree.is === "text" && this.tree.text === "";
  }

  get isText(): boolean {
    return this.tree.is === "text";
  }

  get isMap(): boolean {
    return this.tree.is === "map";
  }

  get isList(): boolean {
    return this.tree.is === "list";
  }

  /** What stands here, as an issue quotes it. */
  get found(): string {
    if (this.tree.is === "text") return this.tree.text === "" ? "nothing" : `"${clip(this.tree.text)}"`;
    return this.tree.is === "map" ? "a map" : "a list";
  }

  /** Adds an error about what stands here. */
  refuse(code: string, expected: string, hint?: string, found = this.found): undefined {
    this.issues.add({ ...this.#issue(code, expected, hint, found), severity: "error" });
    return undefined;
  }

  warn(code: string, expected: string, hint?: string, found = this.found): void {
    this.issues.add({ ...this.#issue(code, expected, hint, found), severity: "warning" });
  }

  /** The text here, as written; an issue when it is a map or a list. */
  text(expected = "a text"): string | undefined {
    if (this.tree.is === "text") return this.tree.text;
    return this.refuse("read.not-text", expected);
  }

  /** The text here, which must not be empty. */
  word(expected = "a word"): string | undefined {
    const text = this.text(expected);
    if (text === undefined) return undefined;
    return text === "" ? this.refuse("read.empty", expected) : text;
  }

  /** The value behind `key`, or `undefined` without an issue when there is none. */
  field(key: string): Cursor | undefined {
    if (this.tree.is !== "map") return undefined;
    const entry = this.tree.entries.get(key);
    if (entry === undefined) return undefined;
    return this.#child(key, entry.value, entry.line, entry.file);
  }

  /** The value behind `key`; an issue when there is none. */
  need(key: string, expected = `a key ${key}`): Cursor | undefined {
    const found = this.field(key);
    if (found !== undefined) return found;
    if (this.tree.is !== "map") {
      // Said once, however many keys are asked for.
      const last = this.issues.all.at(-1);
      const isSaid = last?.code === "read.not-map" && last.at.join() === this.place.at.join();
      return isSaid ? undefined : this.refuse("read.not-map", `a map with ${expected}`);
    }
    return this.refuse("read.missing", expected, undefined, `no ${key}`);
  }

  /** Key and value pairs in the order of the file; nothing written counts as an empty map, anything else is an issue. */
  entries(expected = "a map of names"): readonly (readonly [string, Cursor])[] {
    if (this.tree.is === "map") {
      return [...this.tree.entries].map(
        ([key, entry]) => [key, this.#child(key, entry.value, entry.line, entry.file)] as const,
      );
    }
    if (!this.isEmpty) this.refuse("read.not-map", expected);
    return [];
  }

  /** Members of a list; a single text or map counts as a list of one, nothing written as an empty list. */
  items(): readonly Cursor[] {
    if (this.tree.is === "list") return this.tree.items.map((item, index) => this.#child(index, item, item.line));
    return this.isEmpty ? [] : [this];
  }

  /** A list of texts (or a single one). */
  words(expected = "a list of words"): readonly string[] {
    return this.items().flatMap((item) => item.text(expected) ?? []);
  }

  /** One of the words in `choices`. */
  choice<T extends string>(choices: readonly T[]): T | undefined {
    const text = this.text(choices.join(" | "));
    if (text === undefined) return undefined;
    const chosen = choices.find((choice) => choice === text);
    if (chosen !== undefined) return chosen;
    const near = nearest(text, choices);
    return this.refuse("read.choice", choices.join(" | "), near === undefined ? undefined : `Did you mean ${near}?`);
  }

  /** `yes` or `no`. */
  yesNo(): boolean | undefined {
    const word = this.choice(["yes", "no"]);
    return word === undefined ? undefined : word === "yes";
  }

  /** A plain number without unit, between bounds (both allowed). */
  number(lo = -Infinity, hi = Infinity): number | undefined {
    const text = this.text("a number");
    if (text === undefined) return undefined;
    const expected = lo === -Infinity && hi === Infinity ? "a number" : `a number from ${lo} to ${hi}`;
    const bare = text.replace(/\s*@[A-Z].*$/, "");
    const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(bare) ? Number(bare) : Number.NaN;
    return value >= lo && value <= hi && Number.isFinite(value) ? value : this.refuse("read.number", expected);
  }

  /** An amount with unit, tolerance or range and source mark, as `parseAmount` reads it; without a mark the block's source holds. */
  amount(want: Want = {}): Rated | undefined {
    const text = this.word("an amount");
    if (text === undefined) return undefined;
    const rated = this.issues.take(parseAmount(text, { ...want, ...this.place }));
    if (rated === undefined || rated.source !== undefined || this.source === undefined) return rated;
    return { ...rated, source: this.source };
  }

  /** A share of one: `.3` or `30 %`. */
  chance(): number | undefined {
    const text = this.text("a chance from 0 to 1, or a percentage");
    return text === undefined ? undefined : (chanceOf(text) ?? this.#badChance());
  }

  /** Two chances parted by a slash: `.95/.05`. */
  chancePair(expected = "two chances from 0 to 1, as .95/.05"): readonly [number, number] | undefined {
    const text = this.text(expected);
    if (text === undefined) return undefined;
    const [first, second, ...rest] = text
      .replace(/\s*@[A-Z].*$/, "")
      .split("/")
      .map(chanceOf);
    if (first === undefined || second === undefined || rest.length > 0) return this.refuse("read.chance", expected);
    return [first, second];
  }

  /** An issue for every key of this map that is not in `keys`. `source` is always known. */
  onlyKeys(keys: Iterable<string>): void {
    if (this.tree.is !== "map") return;
    const known = new Set(keys);
    known.add("source");
    for (const [key, entry] of this.tree.entries) {
      if (known.has(key)) continue;
      const hint = didYouMean(key, known);
      this.issues.add({
        code: "read.unknown-key",
        severity: "error",
        ...this.place,
        line: entry.line,
        at: [...this.place.at, key],
        found: key === "" ? "an empty key" : `key ${clip(key)}`,
        expected: "a key that is known here",
        ...(hint === undefined ? {} : { hint }),
      });
    }
  }

  #child(key: string | number, tree: Tree, keyLine: number, file = this.place.file): Cursor {
    const place = { ...this.place, ...(file === undefined ? {} : { file }), at: [...this.place.at, key] };
    return new Cursor(tree, place, this.issues, this.source, keyLine);
  }

  #badChance(): undefined {
    return this.refuse("read.chance", "a chance from 0 to 1, or a percentage");
  }

  #issue(code: string, expected: string, hint: string | undefined, found: string): Omit<Issue, "severity"> {
    return { code, ...this.place, found, expected, ...(hint === undefined ? {} : { hint }) };
  }
}

/**
 * Reads a whole text with `read`, all issues of the file together.
 *
 * @example readWith(text, "meter.yaml", (root) => root.need("says")?.word())
 */
export function readWith<T>(text: string, file: string | undefined, read: (root: Cursor) => T | undefined): Checked<T> {
  const tree = readTree(text, file);
  if (!tree.ok) return tree;
  const issues = new IssueList();
  for (const warning of tree.warnings) issues.add(warning);
  const root = new Cursor(tree.value, file === undefined ? { at: [] } : { file, at: [] }, issues);
  const value = read(root);
  if (value === undefined && !issues.hasErrors) root.refuse("read.nothing", "something to read");
  return issues.conclude(() => value as T);
}

function chanceOf(text: string): number | undefined {
  const match = /^\s*(\d+\.?\d*|\.\d+)\s*(%?)\s*(@[A-Z].*)?$/.exec(text);
  if (match === null) return undefined;
  const value = Number(match[1]) / (match[2] === "%" ? 100 : 1);
  return value >= 0 && value <= 1 ? value : undefined;
}

function clip(text: string): string {
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}
