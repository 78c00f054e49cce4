import { readdirSync, readFileSync } from "node:fs";
import type { Checked } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import {
  assemble,
  combinations,
  type Library,
  type Machine,
  readLibrary,
  readSheet,
} from "../../src/core/sheet/index.ts";

const data = new URL("../../data/", import.meta.url);

function texts(folder: string): Map<string, string> {
  const files = readdirSync(new URL(folder, data)).filter((file) => file.endsWith(".yaml"));
  return new Map(files.map((file) => [file, readFileSync(new URL(`${folder}/${file}`, data), "utf8")]));
}

function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

/** The kinds and houses that are shipped. */
export function shippedLibrary(): Library {
  return must(readLibrary(texts("kinds"), texts("houses"), texts("pieces")));
}

/** The likeliest machine of a shipped sheet that has these answers. */
export function shippedMachine(
  sheet: string,
  answers: Readonly<Record<string, string>> = {},
  differences: readonly string[] = [],
): Machine {
  const library = shippedLibrary();
  const file = `${sheet}.yaml`;
  const read = must(readSheet(readFileSync(new URL(`sheets/${file}`, data), "utf8"), file, library));
  const allowed = combinations(read, new Map(Object.entries(answers)));
  const likeliest = allowed.reduce((best, one) => (one.weight > best.weight ? one : best));
  return must(assemble(read, library, likeliest.choice, [...differences]));
}
