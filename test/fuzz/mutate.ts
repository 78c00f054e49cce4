import type { Random } from "../../src/core/chance/index.ts";
import { mutateBytes } from "./mutate-bytes.ts";
import { mutateTree } from "./mutate-tree.ts";
import { NUMBERS, oneOf, TEXTS, UNITS } from "./odd-values.ts";

/** A mutated file, and what was done to it, for the report of a failure. */
export interface Mutated {
  readonly text: string;
  readonly how: string;
}

/** Share of the mutants that are changed as trees, and of those changed as a run of characters; the rest line by line. */
const BY_TREE = 0.5;
const BY_BYTES = 0.1;

/** A file with one to three things done to it that a tired hand, a bad copy or an enemy might do. */
export function mutate(text: string, random: Random): Mutated {
  const way = random.uniform();
  if (way < BY_BYTES) return mutateBytes(text, random);
  return (way < BY_BYTES + BY_TREE ? mutateTree(text, random) : undefined) ?? mutateLines(text, random);
}

function mutateLines(text: string, random: Random): Mutated {
  let lines = text.split("\n");
  const how: string[] = [];
  const times = 1 + Math.floor(random.uniform() * 3);
  for (let i = 0; i < times; i++) {
    const pick = MUTATIONS[Math.floor(random.uniform() * MUTATIONS.length)] ?? dropLine;
    const at = Math.floor(random.uniform() * lines.length);
    const changed = pick([...lines], at, random);
    lines = changed.length === 0 ? [""] : changed;
    how.push(`${pick.name} at line ${at + 1}`);
  }
  return { text: lines.join("\n"), how: how.join(", ") };
}

type Mutation = (lines: string[], at: number, random: Random) => string[];

function dropLine(lines: string[], at: number): string[] {
  return lines.toSpliced(at, 1);
}

function doubleLine(lines: string[], at: number): string[] {
  return lines.toSpliced(at, 0, lines[at] ?? "");
}

function swapLines(lines: string[], at: number, random: Random): string[] {
  const other = Math.floor(random.uniform() * lines.length);
  return lines.with(at, lines[other] ?? "").with(other, lines[at] ?? "");
}

function cutShort(lines: string[], at: number): string[] {
  return lines.slice(0, Math.max(1, at));
}

function indentOther(lines: string[], at: number, random: Random): string[] {
  const line = lines[at] ?? "";
  return lines.with(
    at,
    random.uniform() < 0.5 ? `${random.uniform() < 0.2 ? "\t" : "  "}${line}` : line.replace(/^ {1,2}/, ""),
  );
}

function otherNumber(lines: string[], at: number, random: Random): string[] {
  return replaceOne(lines, at, /[+-]?\d+(\.\d+)?(e[+-]?\d+)?/g, oneOf(NUMBERS, random) ?? "", random);
}

function otherUnit(lines: string[], at: number, random: Random): string[] {
  return replaceOne(lines, at, /(?<=\d ?)(?:[kMmuµnp]?[VAWFsΩ]|min|%|years?)/g, ` ${oneOf(UNITS, random)}`, random);
}

function otherText(lines: string[], at: number, random: Random): string[] {
  return replaceOne(lines, at, /[\w-]+/g, oneOf(TEXTS, random) ?? "", random);
}

/** A word of this file where another stood: names the wrong thing, makes cycles of what waits for what. */
function wordFromElsewhere(lines: string[], at: number, random: Random): string[] {
  const words = (lines[Math.floor(random.uniform() * lines.length)] ?? "").match(/[\w<>-]+/g) ?? ["x"];
  return replaceOne(lines, at, /[\w<>-]+/g, oneOf(words, random) ?? "", random);
}

function unknownKey(lines: string[], at: number): string[] {
  return lines.with(at, (lines[at] ?? "").replace(/([\w-]+):/, "$1q:"));
}

function addKey(lines: string[], at: number, random: Random): string[] {
  const indent = /^\s*/.exec(lines[at] ?? "")?.[0] ?? "";
  return lines.toSpliced(
    at,
    0,
    `${indent}${oneOf(["x", "after", "if", "source", "__proto__", "<<", "to"], random)}: ${oneOf(["top", "1", "{a: 1}", "[a, b]", "back"], random)}`,
  );
}

function otherShape(lines: string[], at: number, random: Random): string[] {
  return lines.with(
    at,
    (lines[at] ?? "").replace(/:\s+(.+)$/, random.uniform() < 0.5 ? ": [$1, [$1]]" : ": {a: {b: 1}}"),
  );
}

function otherCharacter(lines: string[], at: number, random: Random): string[] {
  const line = lines[at] ?? "";
  const column = Math.floor(random.uniform() * (line.length + 1));
  return lines.with(
    at,
    line.slice(0, column) +
      (oneOf([..."{}[]:,#'\"&*!|>%@`-? <\\"], random) ?? "") +
      line.slice(column + (random.uniform() < 0.5 ? 0 : 1)),
  );
}

function replaceOne(lines: string[], at: number, pattern: RegExp, by: string, random: Random): string[] {
  const line = lines[at] ?? "";
  const found = oneOf([...line.matchAll(pattern)], random);
  if (found === undefined) return lines;
  return lines.with(at, line.slice(0, found.index) + by + line.slice(found.index + found[0].length));
}

const MUTATIONS: readonly Mutation[] = [
  dropLine,
  doubleLine,
  swapLines,
  cutShort,
  indentOther,
  otherNumber,
  otherNumber,
  otherUnit,
  otherText,
  wordFromElsewhere,
  wordFromElsewhere,
  unknownKey,
  addKey,
  otherShape,
  otherCharacter,
];
