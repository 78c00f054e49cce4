import { expect } from "vitest";
import { seeded } from "../../src/core/chance/index.ts";
import type { Issue } from "../../src/core/issue/index.ts";
import { mutate } from "./mutate.ts";

/** More than this for one file of a few hundred lines is a hang, on the slowest machine. */
const MOST_MILLISECONDS = 15_000;
/** A sentence about a file need not hold the file. */
const LONGEST_WORDS = 2000;

/** How often to try: a few thousand files in all as a rule; `FAULTWRIGHT_FUZZ=20` tries twenty times as many. */
export const TIMES = Number(process.env.FAULTWRIGHT_FUZZ ?? 1);

/**
 * Mutates files by a seed and gives each to `read`, which must say what it thinks and never throw.
 *
 * @param read  the issues of a refusal, or `undefined` when it was taken
 * @returns     how many were taken and how many refused
 */
export function fuzz(
  files: ReadonlyMap<string, string>,
  count: number,
  seed: number,
  read: (text: string, file: string, round: number) => readonly Issue[] | undefined,
): { readonly taken: number; readonly refused: number } {
  const random = seeded(seed);
  const all = [...files];
  const failures: string[] = [];
  let taken = 0;
  let refused = 0;
  for (let round = 0; round < count * TIMES; round++) {
    const [file = "", text = ""] = all[Math.floor(random.uniform() * all.length)] ?? [];
    const mutated = mutate(text, random);
    const began = performance.now();
    try {
      const issues = read(mutated.text, file, round);
      if (issues === undefined) taken++;
      else {
        refused++;
        failures.push(...issues.flatMap(badIssue).map((bad) => `${file}: ${mutated.how}: ${bad}`));
      }
    } catch (error) {
      failures.push(
        `${file}: ${mutated.how}: threw ${error instanceof Error ? (error.stack ?? "").slice(0, 600) : error}`,
      );
    }
    const milliseconds = performance.now() - began;
    if (milliseconds > MOST_MILLISECONDS) failures.push(`${file}: ${mutated.how}: took ${Math.round(milliseconds)} ms`);
  }
  expect(failures.slice(0, 10)).toEqual([]);
  return { taken, refused };
}

function badIssue(issue: Issue): readonly string[] {
  const bad: string[] = [];
  if (!/^[a-z][a-z-]*(\.[a-z][a-z0-9-]*)+$/.test(issue.code)) bad.push(`code "${issue.code}"`);
  if (issue.found === "" || issue.found.length > LONGEST_WORDS)
    bad.push(`${issue.code} found of ${issue.found.length} characters`);
  if (issue.expected === "" || issue.expected.length > LONGEST_WORDS)
    bad.push(`${issue.code} expected of ${issue.expected.length} characters`);
  if (issue.line !== undefined && !(issue.line >= 1)) bad.push(`${issue.code} line ${issue.line}`);
  return bad;
}
