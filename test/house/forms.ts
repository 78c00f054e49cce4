import { readdirSync, readFileSync } from "node:fs";
import type { Checked, Issue } from "../../src/core/issue/index.ts";
import { readJob, type WrittenForm } from "../../src/core/ledger/index.ts";
import { readMeter } from "../../src/core/meter/index.ts";
import { readKind } from "../../src/core/part/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { checkSheet, type Library, readLibrary, readSheet } from "../../src/core/sheet/index.ts";

/** The files of a folder whose names match, name → text. */
export function textsIn(folder: string, like = /\.yaml$/): ReadonlyMap<string, string> {
  const files = readdirSync(folder).filter((file) => like.test(file));
  return new Map(files.map((file) => [`${folder}/${file}`, readFileSync(`${folder}/${file}`, "utf8")]));
}

/** Every shipped or tested file of each form. */
export function writtenFiles(): Readonly<Record<WrittenForm, ReadonlyMap<string, string>>> {
  return {
    sheet: new Map([...textsIn("data/sheets"), ...textsIn("test/sheets")]),
    piece: textsIn("data/pieces"),
    kind: textsIn("data/kinds"),
    meter: textsIn("data/meters"),
    costs: textsIn("data/costs"),
    job: new Map([...textsIn("examples"), ...textsIn("test/rows", /^t\d.*\.yaml$/)]),
  };
}

/** Everything the readers have to say of a text; a sheet is assembled in all its combinations. */
export function issuesOf(form: WrittenForm, text: string, file: string, library: Library): readonly Issue[] {
  switch (form) {
    case "sheet": {
      const sheet = readSheet(text, file, library);
      return sheet.ok ? [...sheet.warnings, ...checkSheet(sheet.value, library)] : sheet.issues;
    }
    case "kind":
      return said(readKind(text, file));
    case "job":
      return said(readJob(text, file));
    case "piece":
      return said(readLibrary(new Map(), new Map(), new Map([[file, text]])));
    case "meter":
      return said(readMeter(text, file));
    case "costs":
      return said(readShop(text, "example", file));
  }
}

function said(checked: Checked<unknown>): readonly Issue[] {
  return checked.ok ? checked.warnings : checked.issues;
}
