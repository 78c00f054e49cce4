import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sentence } from "../issue/index.ts";
import { instantiate } from "./instantiate.ts";
import { readKind } from "./read-kind.ts";

const folder = new URL("../../../data/kinds/", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".yaml"));

describe("every kind in data/kinds", () => {
  it.each(files)("%s reads, and stands with its defaults, without an issue", (file) => {
    const kind = readKind(readFileSync(new URL(file, folder), "utf8"), `data/kinds/${file}`);
    expect((kind.ok ? kind.warnings : kind.issues).map(sentence)).toEqual([]);
    if (!kind.ok) return;
    const instance = instantiate(kind.value, new Map(), { at: [file] });
    expect((instance.ok ? instance.warnings : instance.issues).map(sentence)).toEqual([]);
    if (!instance.ok) return;
    expect(instance.value.pins.size).toBeGreaterThanOrEqual(2);
    expect(instance.value.elements.length).toBeGreaterThanOrEqual(1);
    const unsourced = [...instance.value.ratings].filter(([, rated]) => rated.source === undefined);
    expect(unsourced.map(([name]) => name)).toEqual([]);
  });
});
