import { readFileSync } from "node:fs";
import type { Issue } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import {
  assemble,
  combinations,
  type Library,
  type Machine,
  readSheet,
  type Sheet,
} from "../../src/core/sheet/index.ts";

/** The text of `small-dryer.yaml`: every construct of a sheet once. */
export const smallDryerText = readFileSync(new URL("small-dryer.yaml", import.meta.url), "utf8");

export function sheetOf(text: string, library: Library): Sheet {
  const read = readSheet(text, "sheet.yaml", library);
  if (!read.ok) throw new Error(read.issues.map(sentence).join("\n"));
  return read.value;
}

/** Issues of a text that `readSheet` refuses. */
export function refusals(text: string, library: Library): readonly Issue[] {
  const read = readSheet(text, "sheet.yaml", library);
  if (read.ok) throw new Error("the sheet was read");
  return read.issues;
}

/** The likeliest machine with these answers. */
export function machineOf(
  sheet: Sheet,
  library: Library,
  answers: Readonly<Record<string, string>> = {},
  differences: readonly string[] = [],
): Machine {
  const [likeliest] = combinations(sheet, new Map(Object.entries(answers)));
  if (likeliest === undefined) throw new Error("no machine has these answers");
  const assembled = assemble(sheet, library, likeliest.choice, differences);
  if (!assembled.ok) throw new Error(assembled.issues.map(sentence).join("\n"));
  return assembled.value;
}

/** A sheet of a lamp behind a switch, with more lines added to its sections or the file. */
export function lampSheet(
  more: { readonly parts?: string; readonly rest?: string; readonly head?: string } = {},
): string {
  return `format: faultwright-sheet/1
sheet: lamp
${more.head ?? "source: I"}
supply: {house: single 230, class: I}
inputs: {hand: 1}
steps: {plugged-in: {}}
parts:
  switch: {kind: switch, shut: hand > 0, a: L, b: lit, share: 1}
  lamp: {kind: lamp, a: lit, b: N, share: 1}
  tag: {kind: bond, a: PE, b: case, share: 0.1}
  tag-2: {kind: bond, a: case, b: PE, share: 0.1}
${more.parts ?? ""}
${more.rest ?? ""}
`;
}

/** Node of a probe point. */
export function nodeOf(machine: Machine, point: string): number {
  const found = machine.points.find(({ id }) => id === point);
  if (found === undefined) throw new Error(`no point ${point}`);
  return found.node;
}
