import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

// ARCHITECTURE.md names folders and functions; what it names has to be there.
const text = readFileSync("ARCHITECTURE.md", "utf8");
const order = readFileSync("src/core/order.txt", "utf8")
  .split("\n")
  .filter((line) => line.trim() !== "" && !line.startsWith("#"))
  .map((line) => line.split(/\s+/)[0] ?? "");
const sources = readdirSync("src", { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts"))
  .map((file) => readFileSync(`src/${file}`, "utf8"))
  .join("\n");

function section(number: number): string {
  const start = text.indexOf(`\n## ${number}. `);
  const end = text.indexOf(`\n## ${number + 1}. `);
  return text.slice(start, end < 0 ? undefined : end);
}

describe("ARCHITECTURE.md", () => {
  test("its map holds exactly the folders of the order, in their order", () => {
    const rows = section(2)
      .split("\n")
      .filter((line) => /^\| (ground|machine|case|close) /.test(line));
    const named = rows.flatMap((row) => [...(row.split("|")[2] ?? "").matchAll(/`([a-z]+)`/g)].map(([, name]) => name));
    expect(named).toEqual(order);
  });

  test("every folder has a line on what it never does", () => {
    const named = new Set([...section(4).matchAll(/\*\*([a-z]+)\*\*/g)].map(([, name]) => name));
    expect(order.filter((folder) => !named.has(folder))).toEqual([]);
  });

  test("every function, class and type named in the walk and the borders is in the sources", () => {
    const names = [...(section(3) + section(5)).matchAll(/`([A-Za-z]+)(?:\.([A-Za-z]+))?`/g)].flatMap(
      ([, a = "", b]) => (b === undefined ? [a] : [a, b]),
    );
    const code = names.filter(
      (name) => /[a-z][A-Z]|^[A-Z]/.test(name) && name !== "SPICE" && name !== "JSON" && name !== "YAML",
    );
    expect(code.length).toBeGreaterThan(20);
    expect(code.filter((name) => !new RegExp(`\\b${name}\\b`).test(sources))).toEqual([]);
  });

  test("every file and folder it names is there", () => {
    const paths = [...text.matchAll(/`((?:src|test|data|docs|examples|shell)\/[\w./-]*)`/g)].map(([, path = ""]) =>
      path.startsWith("shell/") ? `src/${path}` : path,
    );
    expect(paths.filter((path) => !existsSync(path))).toEqual([]);
  });
});
