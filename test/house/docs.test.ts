import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Checked, sentence } from "../../src/core/issue/index.ts";
import { readJob, schemaOf, WRITTEN_FORMS } from "../../src/core/ledger/index.ts";
import { readMeter } from "../../src/core/meter/index.ts";
import { readKind } from "../../src/core/part/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { checkSheet, readSheet } from "../../src/core/sheet/index.ts";
import { shippedLibrary } from "../machines/shipped.ts";

const library = shippedLibrary();
const documents = ["sheet-file", "kind-file", "job-file", "meter-and-cost-files"].map((name) => {
  const file = `docs/${name}.md`;
  return { file, text: readFileSync(file, "utf8") };
});

const READERS: ReadonlyMap<string, (text: string) => Checked<unknown>> = new Map<
  string,
  (text: string) => Checked<unknown>
>([
  ["kind", (text: string) => readKind(text, "example.yaml")],
  ["job", (text: string) => readJob(text, "example.yaml")],
  ["meter", (text: string) => readMeter(text, "example.yaml")],
  ["costs", (text: string) => readShop(text, "example")],
]);

/** Everything a reader has to say of an example; warnings too. */
function issuesOf(form: string, text: string): readonly string[] {
  const sheet = form === "sheet" ? readSheet(text, "example.yaml", library) : undefined;
  if (sheet?.ok === true) return [...sheet.warnings, ...checkSheet(sheet.value, library)].map(sentence);
  const checked = sheet ?? READERS.get(form)?.(text);
  if (checked === undefined) throw new Error(`an example of an unknown form: ${form}`);
  return (checked.ok ? checked.warnings : checked.issues).map(sentence);
}

describe("the guides to the files", () => {
  const examples = documents.flatMap(({ file, text }) =>
    [...text.matchAll(/```yaml (\w+)\n([\s\S]*?)```/g)].map((match) => [file, match[1] ?? "", match[2] ?? ""] as const),
  );

  test("hold one example each of a sheet, a kind, a job, a meter and a cost file", () => {
    expect(examples.map(([, form]) => form).sort()).toEqual(["costs", "job", "kind", "meter", "sheet"]);
  });

  test.each(examples)("%s: its %s is read without an issue", (_file, form, text) => {
    expect(issuesOf(form, text)).toEqual([]);
  });

  test.each([
    ["sheet", "docs/sheet-file.md"],
    ["kind", "docs/kind-file.md"],
    ["job", "docs/job-file.md"],
    ["meter", "docs/meter-and-cost-files.md"],
    ["costs", "docs/meter-and-cost-files.md"],
  ] as const)("every key of a %s is told in %s", (form, file) => {
    const text = documents.find((document) => document.file === file)?.text ?? "";
    const told = new Set([...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? ""));
    expect([...keysOf(schemaOf(form))].filter((key) => !told.has(key))).toEqual([]);
  });

  test("a key in the first column of a table is one that a reader knows", () => {
    const known = new Set(WRITTEN_FORMS.flatMap((form) => [...keysOf(schemaOf(form))]));
    for (const { file, text } of documents) {
      const rows = [...text.matchAll(/^\| (`[^|]*`) \|/gm)].flatMap((row) => [
        ...(row[1] ?? "").matchAll(/`([^`]+)`/g),
      ]);
      expect(rows.length, file).toBeGreaterThan(8);
      expect(
        rows.map((row) => row[1]).filter((key) => key !== undefined && !known.has(key)),
        file,
      ).toEqual([]);
    }
  });

  test("every command they name is a command", () => {
    const commands = new Set(
      readdirSync("src/shell/cli/commands").flatMap((file) =>
        [...readFileSync(`src/shell/cli/commands/${file}`, "utf8").matchAll(/\.command\("([\w-]+)/g)].map(
          (match) => match[1] ?? "",
        ),
      ),
    );
    const named = documents.flatMap(({ text }) =>
      [...text.matchAll(/\.\/faultwright ([\w-]+)/g)].map((match) => match[1] ?? ""),
    );
    expect(named.length).toBeGreaterThan(4);
    expect(named.filter((name) => !commands.has(name))).toEqual([]);
  });
});

/** Names of properties anywhere in a schema; templates and patterns apart. */
function keysOf(schema: unknown, found: Set<string> = new Set()): Set<string> {
  if (Array.isArray(schema)) for (const one of schema) keysOf(one, found);
  else if (schema !== null && typeof schema === "object") {
    for (const [key, value] of Object.entries(schema)) {
      if (key === "properties" && value !== null && typeof value === "object") {
        for (const name of Object.keys(value)) found.add(name);
      }
      keysOf(value, found);
    }
  }
  return found;
}
