import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { accept, type Checked, refuse } from "../../core/issue/index.ts";

/** Largest file read where nothing else is said: the dryer's sheet is some 60 kB, so this leaves room for thirty of them. */
const LARGEST_SHEET_MEGABYTES = 2;

/** The text of a file the user named, or why it cannot be read; never more than a sheet, or what else it is, could hold. */
export function readText(path: string, largestMegabytes = LARGEST_SHEET_MEGABYTES): Checked<string> {
  let bytes: number;
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) {
      return refuse(fileIssue("file.is-a-folder", path, "a folder", "a file", "Name a file inside it."));
    }
    bytes = stat.size;
  } catch {
    return refuse(
      fileIssue("file.not-found", path, "no such file", "a file that can be read", "Check the name and the folder."),
    );
  }
  if (bytes > largestMegabytes * 1024 * 1024) {
    const found = `${(bytes / 1024 / 1024).toFixed(1)} MB`;
    return refuse(
      fileIssue(
        "file.too-large",
        path,
        found,
        `at most ${largestMegabytes} MB`,
        "What belongs here is far smaller: is it the right file?",
      ),
    );
  }
  try {
    return accept(new TextDecoder("utf-8", { fatal: true }).decode(readFileSync(path)));
  } catch {
    return refuse(
      fileIssue("file.not-text", path, "bytes that are not UTF-8 text", "a text file", "Save it as UTF-8."),
    );
  }
}

function fileIssue(code: string, file: string, found: string, expected: string, hint: string) {
  return { code, severity: "error" as const, file, at: [], found, expected, hint };
}

/** The folder of facts that ships with the program: beside `dist/`, or at the top of the clone. */
export function dataFolder(): string {
  const here = fileURLToPath(new URL(".", import.meta.url));
  for (const up of ["../data", "../../../data"]) {
    const folder = join(here, up);
    if (existsSync(join(folder, "kinds"))) return folder;
  }
  throw new Error(`the data folder is missing: looked beside ${here}`);
}

/** Texts of all YAML files of one data folder, by name without its ending, in the order of their names. */
export function dataTexts(folder: string): ReadonlyMap<string, string> {
  const root = join(dataFolder(), folder);
  const texts = new Map<string, string>();
  for (const file of readdirSync(root).sort()) {
    if (extname(file) === ".yaml") texts.set(basename(file, ".yaml"), readFileSync(join(root, file), "utf8"));
  }
  return texts;
}
