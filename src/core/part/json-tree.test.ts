import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { jsonOf, readTree as readJson } from "./json-tree.ts";
import { readTree } from "./read-tree.ts";
import type { Tree } from "./tree.ts";

/** The tree without its lines: maps as lists of pairs, so that their order counts. */
function bare(tree: Tree): unknown {
  if (tree.is === "text") return tree.text;
  if (tree.is === "list") return tree.items.map(bare);
  return { map: [...tree.entries].map(([key, entry]) => [key, bare(entry.value)]) };
}

describe("JSON in place of YAML", () => {
  it("gives the very tree of every file that ships with the app", () => {
    let files = 0;
    for (const folder of ["kinds", "houses", "pieces", "meters", "costs", "sheets", "../examples"]) {
      for (const name of readdirSync(`data/${folder}`).filter((one) => one.endsWith(".yaml"))) {
        const yaml = readTree(readFileSync(`data/${folder}/${name}`, "utf8"));
        if (!yaml.ok) throw new Error(name);
        const json = readJson(jsonOf(yaml.value));
        expect(json.ok && bare(json.value)).toEqual(bare(yaml.value));
        files++;
      }
    }
    expect(files).toBeGreaterThan(50);
  });

  it("keeps numbers as written, keys in their order, and lines", () => {
    const text = '{"b": [1.50, 1e3, -0, true, null],\n "11": "a \\"b\\" \\u00b5",\n "a": {}, "c": []}';
    const read = readJson(text);
    if (!read.ok || read.value.is !== "map") throw new Error("not a map");
    expect(bare(read.value)).toEqual({
      map: [
        ["b", ["1.50", "1e3", "-0", "true", "null"]],
        ["11", 'a "b" µ'],
        ["a", { map: [] }],
        ["c", []],
      ],
    });
    expect([...read.value.entries.values()].map(({ line }) => line)).toEqual([1, 2, 3, 3]);
  });

  it.each(["", "a: 1", "[1 2]", "[1,]", '{"a" 1}', '{"a":1', "[1]]", '"a', "{1", "[".repeat(1e5)])(
    "refuses %.12s, which is no JSON",
    (text) => {
      expect(readJson(text, "f.json")).toMatchObject({ ok: false, issues: [{ code: "tree.syntax", file: "f.json" }] });
    },
  );
});
