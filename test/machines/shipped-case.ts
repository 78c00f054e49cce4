import { readFileSync } from "node:fs";
import type { Checked } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import { type Meter, readMeter } from "../../src/core/meter/index.ts";
import { branchSheet, readSheet } from "../../src/core/sheet/index.ts";
import { type CaseAsk, type ForeseenCase, openCase } from "../../src/core/suspect/index.ts";
import { shippedLibrary } from "./shipped.ts";

const data = new URL("../../data/", import.meta.url);

function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

const library = shippedLibrary();

/** A case on a shipped sheet, with these slots answered. */
export function shippedCase(
  name: string,
  answers: Readonly<Record<string, string>>,
  options: Pick<CaseAsk, "pairsAtMost"> = {},
): ForeseenCase {
  const sheet = must(readSheet(readFileSync(new URL(`sheets/${name}.yaml`, data), "utf8"), `${name}.yaml`, library));
  return must(openCase({ sheet, library, answers: new Map(Object.entries(answers)), ...options }));
}

/** A case on a branch of a few kinds. */
export function branchCase(list: string): ForeseenCase {
  return must(openCase({ sheet: must(branchSheet(list, library)), library }));
}

/** The shipped 6000-count meter. */
export function handheld(): Meter {
  return must(readMeter(readFileSync(new URL("meters/handheld-6000.yaml", data), "utf8"), "handheld-6000"));
}
