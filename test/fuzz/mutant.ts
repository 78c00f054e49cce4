import { seeded } from "../../src/core/chance/index.ts";
import type { Issue } from "../../src/core/issue/index.ts";
import { doors } from "./doors.ts";
import type { Form, Judged } from "./form.ts";
import { moneyForms } from "./money.ts";
import { mutate } from "./mutate.ts";
import { separated } from "./separated.ts";
import { writtenForms } from "./written.ts";

/** A sentence about a file need not hold the file. */
const LONGEST_WORDS = 2000;
/** Every so many mutants one is judged twice, to see that the answer is the same. */
const TWICE = 10;

export const forms: readonly Form[] = [...doors, ...writtenForms, ...moneyForms, ...separated];

/** One mutated file, known by its form, seed and number alone. */
export interface Mutant {
  readonly form: Form;
  readonly seed: number;
  readonly number: number;
  readonly file: string;
  readonly text: string;
  readonly how: string;
}

export interface Outcome {
  readonly taken: boolean;
  readonly milliseconds: number;
  /** What was wrong with how it was taken or refused. */
  readonly failure?: string;
}

export function mutantOf(form: Form, seed: number, number: number): Mutant {
  const random = seeded(`${form.name}/${seed}/${number}`);
  const files = [...form.files];
  const [file = "", text = ""] = files[Math.floor(random.uniform() * files.length)] ?? [];
  return { form, seed, number, file, ...mutate(text, random) };
}

/** Gives a mutant to its form's reader: it must be taken and give lawful output, or be refused in plain words. */
export function judgeMutant({ form, number, file, text }: Mutant): Outcome {
  const began = performance.now();
  const outcome = (taken: boolean, failure?: string): Outcome => ({
    taken,
    milliseconds: performance.now() - began,
    ...(failure === undefined ? {} : { failure }),
  });
  try {
    const judged = form.judge(text, file, number);
    const isTaken = judged.refused === undefined;
    const bad = isTaken ? strange(judged.told, "") : judged.refused.flatMap(badIssue)[0];
    if (bad !== undefined) return outcome(isTaken, bad);
    if (judged.refused?.length === 0) return outcome(false, "refused without a reason");
    if (number % TWICE === 0 && written(form.judge(text, file, number)) !== written(judged))
      return outcome(isTaken, "another answer when run again");
    return outcome(isTaken);
  } catch (error) {
    return outcome(false, `threw ${error instanceof Error ? (error.stack ?? error.message).slice(0, 800) : error}`);
  }
}

function written(judged: Judged): string {
  return JSON.stringify(judged);
}

/** The first number in what was told that is none. */
function strange(told: unknown, at: string): string | undefined {
  if (typeof told === "number") return Number.isFinite(told) ? undefined : `${told}${at}`;
  if (typeof told !== "object" || told === null) return undefined;
  for (const [key, value] of Object.entries(told)) {
    const found = strange(value, `${at}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
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
