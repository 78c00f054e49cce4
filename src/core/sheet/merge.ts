import type { IssueList } from "../issue/index.ts";
import { Cursor, type Tree, type TreeMap } from "../part/index.ts";
import type { Layer } from "./sheet.ts";

/** Sections that are lists: layers add to them. All other sections are maps by name. */
const LISTS: ReadonlySet<string> = new Set(["same-wire", "links"]);
/** Maps whose entries add up (with "and") instead of replacing one another. */
const ADDING: ReadonlySet<string> = new Set(["guards", "run-by"]);

/** One entry of a section, merged from all layers that speak of it. */
interface Entry {
  readonly layer: Layer;
  readonly line: number;
  readonly value: Tree;
}

/**
 * Layers laid over one another, in order: maps by name merge deeply, later texts replace earlier ones, guards and
 * `run-by` add up, `same-wire` and `links` are joined. An entry belongs to the file of the layer that named it first.
 */
export class Merged {
  readonly #sections = new Map<string, Map<string, Entry>>();

  constructor(layers: readonly Layer[], holds: (layer: Layer, condition: Tree) => boolean) {
    for (const layer of layers) {
      for (const [section, { value, line }] of layer.tree.entries) this.#lay(layer, section, value, line, holds);
    }
  }

  #lay(layer: Layer, section: string, value: Tree, line: number, holds: (layer: Layer, test: Tree) => boolean): void {
    let entries = this.#sections.get(section);
    if (entries === undefined) {
      entries = new Map();
      this.#sections.set(section, entries);
    }
    if (value.is === "map") {
      for (const [name, entry] of value.entries) {
        const condition = conditionOf(entry.value);
        if (condition !== undefined && !holds(layer, condition)) continue;
        const before = entries.get(name);
        const merged =
          before === undefined ? entry.value : mergeTrees(before.value, entry.value, ADDING.has(section), layer.file);
        entries.set(
          name,
          before === undefined ? { layer, line: entry.line, value: merged } : { ...before, value: merged },
        );
      }
      return;
    }
    const before = entries.get("");
    if (before === undefined) entries.set("", { layer, line, value });
    else {
      const merged = LISTS.has(section)
        ? joinLists(before.value, value)
        : mergeTrees(before.value, value, ADDING.has(section), layer.file);
      entries.set("", { ...before, value: merged });
    }
  }

  /** Names and what stands behind them, in the order in which layers first spoke of them. */
  section(name: string, issues: IssueList): readonly (readonly [string, Cursor])[] {
    const entries = this.#sections.get(name) ?? new Map<string, Entry>();
    return [...entries].map(([key, entry]) => [key, cursorOf(name, key, entry, issues)] as const);
  }

  /** What stands behind a section that is a list or a single text. */
  single(name: string, issues: IssueList): Cursor | undefined {
    const entry = this.#sections.get(name)?.get("");
    return entry === undefined ? undefined : cursorOf(name, "", entry, issues);
  }
}

function cursorOf(section: string, key: string, entry: Entry, issues: IssueList): Cursor {
  const at = [...entry.layer.at, section, ...(key === "" ? [] : [key])];
  const place = entry.layer.file === undefined ? { at } : { file: entry.layer.file, at };
  return new Cursor(entry.value, place, issues, entry.layer.source, entry.line);
}

/** `if:` (or `only-if:`) of an entry: the slots under which it is there at all. */
function conditionOf(value: Tree): Tree | undefined {
  if (value.is !== "map") return undefined;
  return (value.entries.get("only-if") ?? value.entries.get("if"))?.value;
}

/** @param file  where the second stands; the first stands where the whole entry does */
function mergeTrees(first: Tree, second: Tree, adding: boolean, file: string | undefined): Tree {
  if (first.is === "map" && second.is === "map") return mergeMaps(first, second, adding, file);
  if (adding) return joinLists(first, second);
  return second.is === "text" && second.text === "" ? first : second;
}

function mergeMaps(first: TreeMap, second: TreeMap, adding: boolean, file: string | undefined): TreeMap {
  const entries = new Map(first.entries);
  for (const [key, entry] of second.entries) {
    const before = entries.get(key);
    const value =
      before === undefined
        ? entry.value
        : mergeTrees(before.value, entry.value, adding || ADDING.has(key), entry.file ?? file);
    if (before !== undefined && value !== entry.value) entries.set(key, { ...before, value });
    else entries.set(key, { ...entry, ...(entry.file === undefined && file !== undefined ? { file } : {}) });
  }
  return { is: "map", line: first.line, entries };
}

function joinLists(first: Tree, second: Tree): Tree {
  const items = [first, second].flatMap((tree) => (tree.is === "list" ? tree.items : [tree]));
  return { is: "list", line: first.line, items };
}
