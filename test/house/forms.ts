import { readdirSync, readFileSync } from "node:fs";
import type { Checked, Issue } from "../../src/core/issue/index.ts";
import { readJob } from "../../src/core/ledger/index.ts";
import { readKind } from "../../src/core/part/index.ts";
import { checkSheet, type Library, readSheet } from "../../src/core/sheet/index.ts";

/** The files of a folder whose names match, name → text. */
export function textsIn(folder: string, like = /\.yaml$/): ReadonlyMap<string, string> {
  const files = readdirSync(folder).filter((file) => like.test(file));
  return new Map(files.map((file) => [`${folder}/${file}`, readFileSync(`${folder}/${file}`, "utf8")]));
}

/** Every shipped or tested file of each form. */
export function writtenFiles(): Readonly<Record<"sheet" | "kind" | "job", ReadonlyMap<string, string>>> {
  return {
    sheet: new Map([...textsIn("data/sheets"), ...textsIn("test/sheets")]),
    kind: textsIn("data/kinds"),
    job: new Map([...textsIn("examples"), ...textsIn("test/rows", /^t\d.*\.yaml$/)]),
  };
}

/** Everything the readers have to say of a text; a sheet is assembled in all its combinations. */
export function issuesOf(
  form: "sheet" | "kind" | "job",
  text: string,
  file: string,
  library: Library,
): readonly Issue[] {
  switch (form) {
    case "sheet": {
      const sheet = readSheet(text, file, library);
      return sheet.ok ? [...sheet.warnings, ...checkSheet(sheet.value, library)] : sheet.issues;
    }
    case "kind":
      return said(readKind(text, file));
    case "job":
      return said(readJob(text, file));
  }
}

function said(checked: Checked<unknown>): readonly Issue[] {
  return checked.ok ? checked.warnings : checked.issues;
}
