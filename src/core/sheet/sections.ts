import type { Cursor, Tree } from "../part/index.ts";
import type { Layer } from "./sheet.ts";

/** What any layer of a sheet (the family itself, a piece, a variant, a house) may speak of. */
export const SECTIONS = [
  "inputs",
  "plugs",
  "wires",
  "same-wire",
  "assemblies",
  "parts",
  "joint-rows",
  "guards",
  "run-by",
  "quantities",
  "world",
  "steps",
  "conditions",
  "service-test",
  "signs",
  "causes",
  "links",
  "why-open",
  "codes",
  "access",
] as const;

/** The sections that stand in a map, without the keys of its own; `undefined` (and an issue) when it is no map. */
export function layerOf(cursor: Cursor, ownKeys: readonly string[]): Layer | undefined {
  const { tree, place, source } = cursor;
  if (cursor.isEmpty)
    return { tree: { is: "map", line: cursor.line, entries: new Map() }, at: place.at, ...fileOf(cursor) };
  if (tree.is !== "map") return cursor.refuse("read.not-map", "a map");
  const own = new Set([...ownKeys, "source"]);
  const entries = new Map<string, { readonly line: number; readonly value: Tree }>();
  for (const [key, entry] of tree.entries) if (!own.has(key)) entries.set(key, entry);
  return {
    tree: { is: "map", line: tree.line, entries },
    at: place.at,
    ...fileOf(cursor),
    ...(source === undefined ? {} : { source }),
  };
}

function fileOf(cursor: Cursor): { readonly file?: string } {
  return cursor.place.file === undefined ? {} : { file: cursor.place.file };
}
