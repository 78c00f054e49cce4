import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { expect, test } from "vitest";

/** What each part of the shell may use of the others; all may use the core, through its doors. */
const mayUse: Readonly<Record<string, readonly string[]>> = {
  words: [],
  store: [],
  paper: ["words"],
  cli: ["words", "paper"],
  web: ["words", "store", "paper"],
};

const root = "src/shell";

function faultsOf(file: string, source: string): string[] {
  const here = file.split("/")[0] ?? "";
  const allowed = mayUse[here];
  if (allowed === undefined) return [`${file}: the shell has no part "${here}"`];
  return [...source.matchAll(/\bfrom\s*"(\.[^"]+)"/g)].flatMap(([, to = ""]) => {
    const path = posix.normalize(posix.join("shell", posix.dirname(file), to));
    const [top, there = "", ...inside] = path.split("/");
    if (top === "core") return inside.join("/") === "index.ts" ? [] : [`${file}: imports "${to}"; use its index.ts`];
    if (there === here || allowed.includes(there)) return [];
    return [`${file}: "${here}" imports "${there}"`];
  });
}

test("the parts of the shell use of one another only what they may", () => {
  const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((file) => /\.tsx?$/.test(file));
  const sources = files.filter((file) => !file.includes(".test."));
  expect(sources.length).toBeGreaterThan(40);
  expect(sources.flatMap((file) => faultsOf(file, readFileSync(join(root, file), "utf8")))).toEqual([]);
});

test("a planted import the wrong way is refused", () => {
  expect(faultsOf("store/planted.ts", 'import { x } from "../web/app.tsx";').join()).toContain("imports");
  expect(faultsOf("web/planted.ts", 'import { x } from "../../core/plan/plan.ts";').join()).toContain("index.ts");
});
