import type { IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean, type Haste } from "../part/index.ts";
import type { Formulas } from "./formulas.ts";
import type { SignRule, SignTest, WitnessOdds } from "./machine.ts";
import type { Merged } from "./merge.ts";

export const SIGN_KEYS = [
  "ask",
  "in",
  "at",
  "true-when",
  "levels",
  "when-first",
  "answers",
  "from",
  "table",
  "told",
  "heard",
  "seen",
  "min",
  "unless",
  "if",
  "only-if",
  "note",
] as const;
export const MOMENTS = ["now", "seconds", "minutes", "end"] as const satisfies readonly (Haste | "end")[];
/** Odds of a witness where a sign gives none, from memory: a customer's telling, a sound on the telephone, one's own eyes. */
const DEFAULT_ODDS = {
  told: { hit: 0.8, falseAlarm: 0.1 },
  heard: { hit: 0.85, falseAlarm: 0.08 },
  seen: { hit: 0.95, falseAlarm: 0.03 },
} as const;

/** The questions that a sheet asks, each with what its answer follows from. */
export function readSigns(
  merged: Merged,
  formulas: Formulas,
  places: readonly string[],
  steps: readonly string[],
  issues: IssueList,
): readonly SignRule[] {
  return merged.section("signs", issues).flatMap(([id, cursor]) => readSign(id, cursor, formulas, places, steps) ?? []);
}

function readSign(
  id: string,
  cursor: Cursor,
  formulas: Formulas,
  places: readonly string[],
  steps: readonly string[],
): SignRule | undefined {
  cursor.onlyKeys(SIGN_KEYS);
  const ask = cursor.need("ask", "the question in plain words")?.word();
  const inCursor = cursor.field("in");
  const where = inCursor?.word("a step or condition");
  if (where !== undefined && !places.includes(where)) {
    inCursor?.refuse("sheet.sign.in", "a step or condition of this machine", didYouMean(where, places));
  }
  const at = cursor.field("at")?.choice(MOMENTS) ?? "end";
  const rule = readRule(cursor, at, formulas, steps);
  if (ask === undefined || rule === undefined) return undefined;
  if ((rule.rule.kind === "test" || rule.rule.kind === "levels") && where === undefined) {
    cursor.refuse("sheet.sign.in", "in: the step or condition it is about", undefined, "no in");
  }
  const minutes = cursor.field("min")?.number(0);
  const unless = cursor.field("unless")?.entries();
  return {
    id,
    ask,
    ...(where === undefined ? {} : { in: where }),
    ...rule,
    told: readOdds(cursor, "told"),
    heard: readOdds(cursor, "heard"),
    seen: readOdds(cursor, "seen"),
    ...(minutes === undefined ? {} : { minutes }),
    ...(unless === undefined ? {} : { unless: unless.map(([sign, answers]) => [sign, wordsOf(answers)] as const) }),
  };
}

/** `no | weak`: one answer or several. */
function wordsOf(answers: Cursor): readonly string[] {
  return (answers.word() ?? "").split("|").map((answer) => answer.trim());
}

function readOdds(cursor: Cursor, witness: "told" | "heard" | "seen"): WitnessOdds {
  const pair = cursor.field(witness)?.chancePair("hit and false alarm, as .85/.10");
  if (pair !== undefined) return { hit: pair[0], falseAlarm: pair[1] };
  // A sound is told worse than it is heard, but not better than the sign's own telling says.
  const told = witness === "told" ? undefined : cursor.field("told")?.chancePair();
  const otherwise = DEFAULT_ODDS[witness];
  if (told === undefined) return otherwise;
  return { hit: Math.max(told[0], otherwise.hit), falseAlarm: Math.min(told[1], otherwise.falseAlarm) };
}

type Ruled = Pick<SignRule, "answers" | "rule">;

function readRule(cursor: Cursor, at: Haste | "end", formulas: Formulas, steps: readonly string[]): Ruled | undefined {
  const trueWhen = cursor.field("true-when");
  if (trueWhen !== undefined) {
    const test = formulas.testAt(trueWhen, at);
    return test && { answers: ["yes", "no"], rule: { kind: "test", test } };
  }
  const levels = cursor.field("levels");
  if (levels !== undefined) return readLevels(levels, at, formulas);
  const whenFirst = cursor.field("when-first");
  if (whenFirst !== undefined) {
    const when = formulas.at(whenFirst);
    const answers = readAnswers(cursor, "never");
    const unknown = answers.slice(1).find((answer) => !steps.includes(answer));
    if (unknown !== undefined) {
      cursor
        .field("answers")
        ?.refuse("sheet.sign.answers", "never, then steps of this machine", didYouMean(unknown, steps), `"${unknown}"`);
    }
    return when && { answers, rule: { kind: "when-first", when } };
  }
  const table = cursor.field("table");
  if (table !== undefined) return readTable(table);
  const from = cursor.field("from");
  if (from?.choice(["says"]) === "says") return { answers: readAnswers(cursor, "none"), rule: { kind: "says" } };
  if (from !== undefined) return undefined;
  return cursor.refuse(
    "sheet.sign.rule",
    "true-when, levels, when-first, table, or from: says",
    undefined,
    "none of them",
  );
}

function readAnswers(cursor: Cursor, first: string): readonly string[] {
  const list = cursor.need("answers", `answers: ${first} | ...`);
  const words = list?.isList === true ? list.words() : (list?.text()?.split("|") ?? []);
  const answers = words.map((answer) => answer.trim()).filter((answer) => answer !== "");
  if (list !== undefined && answers[0] !== first) list.refuse("sheet.sign.answers", `answers that begin with ${first}`);
  return answers;
}

/** `{cold: heat < 8% of rated, lukewarm: ..., hot: else}`: the first that holds, the last without a condition. */
function readLevels(cursor: Cursor, at: Haste | "end", formulas: Formulas): Ruled | undefined {
  const entries = cursor.entries("a map from answer to condition");
  const tests: SignTest[] = [];
  for (const [index, [, condition]] of entries.entries()) {
    const isLast = index === entries.length - 1;
    if (isLast !== (condition.text() === "else")) {
      return condition.refuse("sheet.sign.levels", isLast ? "else at the last level" : "else only at the last level");
    }
    const test = isLast ? undefined : formulas.testAt(condition, at);
    if (test !== undefined) tests.push(test);
  }
  if (entries.length < 2) return cursor.refuse("sheet.sign.levels", "two levels or more, the last one else");
  return { answers: entries.map(([answer]) => answer), rule: { kind: "levels", tests } };
}

function readTable(cursor: Cursor): Ruled | undefined {
  const chance = new Map<string, number>();
  let otherwise: number | undefined;
  for (const [name, value] of cursor.entries("a map from cause or part/mode to chance")) {
    const p = value.chance();
    if (p === undefined) continue;
    if (name === "else") otherwise = p;
    else chance.set(name, p);
  }
  if (otherwise === undefined)
    return cursor.refuse("sheet.sign.table", "else: the chance under all other causes", undefined, "no else");
  return { answers: ["yes", "no"], rule: { kind: "table", chance, otherwise } };
}
