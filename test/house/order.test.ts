import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, test } from "vitest";

/** Pure libraries that core may use, each in the named folders only, with the reason. */
const pureLibraries: ReadonlyMap<string, { readonly folders: readonly string[]; readonly reason: string }> = new Map([
  ["yaml", { folders: ["part"], reason: "reads sheets, kinds, meters and jobs with line numbers; no I/O of its own" }],
]);

const root = "src/core";
const order = readFileSync(join(root, "order.txt"), "utf8")
  .split("\n")
  .filter((line) => line.trim() !== "" && !line.startsWith("#"))
  .map((line) => line.trim().split(/\s+/)[0] ?? "");

const isTest = (file: string): boolean => file.endsWith(".test.ts");

/** Statements `import ... from "x"`, `export ... from "x"`, `import "x"`, and `import("x")` anywhere; not a string that says from. */
const importPattern =
  /^(?:import|export)\b[^"';]*?\bfrom\s*["']([^"']+)["']|^import\s*["']([^"']+)["']|\bimport\s*\(\s*["']([^"']+)["']/gm;

/** What is wrong with the imports of one core file. `file` is relative to `src/core`. */
function importFaults(file: string, source: string): string[] {
  const here = file.split("/")[0] ?? "";
  if (!order.includes(here)) return [`${file}: folder "${here}" is not in order.txt`];
  const faults: string[] = [];
  for (const match of source.matchAll(importPattern)) {
    const to = match.slice(1).find((path) => path !== undefined) ?? "";
    if (!to.startsWith(".")) {
      if (isTest(file)) continue;
      const library = pureLibraries.get(to);
      if (library === undefined) faults.push(`${file}: imports "${to}"; core has no such outside import`);
      else if (!library.folders.includes(here))
        faults.push(`${file}: imports "${to}"; only ${library.folders.join(", ")} may`);
      continue;
    }
    const [there = "", ...inside] = posix.normalize(posix.join(posix.dirname(file), to)).split("/");
    if (there === here || (isTest(file) && there === "..")) continue;
    if (!order.includes(there)) faults.push(`${file}: imports "${to}", outside core`);
    else if (order.indexOf(there) > order.indexOf(here) && !isTest(file))
      faults.push(`${file}: "${here}" imports "${there}", which comes later`);
    else if (inside.join("/") !== "index.ts" && !isTest(file))
      faults.push(`${file}: imports "${to}"; use ${there}/index.ts`);
  }
  return faults;
}

const files = readdirSync(root, { recursive: true, encoding: "utf8" })
  .map((file) => file.replaceAll("\\", "/"))
  .filter((file) => file.endsWith(".ts"));

describe("the order of the core", () => {
  test("every import goes up the list, through a folder's door, and never out of core", () => {
    expect(files.flatMap((file) => importFaults(file, readFileSync(join(root, file), "utf8")))).toEqual([]);
  });

  test("every folder has a door that only re-exports", () => {
    for (const folder of order) {
      const door = readFileSync(join(root, folder, "index.ts"), "utf8");
      const code = door.replaceAll(/\/\/.*$/gm, "").replaceAll(/\/\*[\s\S]*?\*\//g, "");
      expect(code.replaceAll(/export\s+(type\s+)?(\*|\{[^}]*\})\s+from\s+"[^"]+";/g, "").trim(), folder).toBe("");
    }
  });

  test.each([
    ["a later folder", "issue/planted.ts", 'import type { Rated } from "../quantity/index.ts";', "comes later"],
    [
      "a way round a door",
      "plan/planted.ts",
      'import type { Rated } from "../quantity/rated.ts";',
      "use quantity/index.ts",
    ],
    ["a package", "plan/planted.ts", 'import { z } from "zod";', "no such outside import"],
    ["a library in the wrong folder", "plan/planted.ts", 'import { parse } from "yaml";', "only part may"],
    ["the shell", "plan/planted.ts", 'import { main } from "../../shell/cli/main.ts";', "outside core"],
    ["an unlisted folder", "misc/planted.ts", "", "not in order.txt"],
  ])("a planted import of %s is refused", (_what, file, source, reason) => {
    expect(importFaults(file, source).join()).toContain(reason);
  });
});

describe("the purity of the core", () => {
  const banned =
    /\b(Date\.now|new Date|Math\.random|Intl\.|globalThis|localeCompare|toLocaleString|performance\.now|process\.)/;
  test("no file of core reads a clock, chance, locale or process", () => {
    const faults = files.filter((file) => !isTest(file) && banned.test(readFileSync(join(root, file), "utf8")));
    expect(faults).toEqual([]);
  });

  test("no file of core keeps a module-level variable that can change", () => {
    const faults = files.filter(
      (file) => !isTest(file) && /^(export )?(let|var) /m.test(readFileSync(join(root, file), "utf8")),
    );
    expect(faults).toEqual([]);
  });
});
