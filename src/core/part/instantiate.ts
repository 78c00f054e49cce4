import { accept, type Checked, IssueList } from "../issue/index.ts";
import { isUnitCode, parseAmount, type Rated, type Source } from "../quantity/index.ts";
import { compileExpression } from "./compile.ts";
import { Cursor } from "./cursor.ts";
import { expandTree } from "./expand.ts";
import type { Moment } from "./expression.ts";
import type { Expression } from "./formula.ts";
import type { Kind, KindInstance } from "./kind.ts";
import { didYouMean } from "./nearest.ts";
import { parseExpression } from "./parse.ts";
import type { Place } from "./place.ts";
import { readInstance } from "./read-instance.ts";

/** A rating as the sheet wrote it. */
export interface RatingText {
  readonly text: string;
  readonly line: number;
  /** Of the block it stands in, for numbers without a mark of their own. */
  readonly source?: Source;
}

/** Answers to what a kind asks. */
export interface Answers {
  readonly ratings: ReadonlyMap<string, Rated>;
  readonly conditions: ReadonlyMap<string, Expression>;
  readonly words: ReadonlyMap<string, string>;
}

const MOST_COPIES = 24;
/** Clean instances by kind and by the ratings' text: a hundred equal joints are read once. */
const remembered = new WeakMap<Kind, Map<string, KindInstance>>();

/**
 * A kind made concrete for one part: defaults filled in, templates written out, every name checked.
 *
 * @param ratings  words on the part's line in the sheet that are not pins; an unknown one is an issue at its line
 * @param place    the part in the sheet, for issues
 */
export function instantiate(kind: Kind, ratings: ReadonlyMap<string, RatingText>, place: Place): Checked<KindInstance> {
  const key = JSON.stringify([...ratings].map(([name, rating]) => [name, rating.text, rating.source]));
  let known = remembered.get(kind);
  if (known === undefined) {
    known = new Map();
    remembered.set(kind, known);
  }
  const before = known.get(key);
  if (before !== undefined) return accept(before);
  const issues = new IssueList();
  const instance = instantiateWith(kind, ratings, issues, place);
  // A formula of the sheet carries its line; it must not be lent to another part.
  const isPlaced = [...ratings.keys()].some((name) => kind.asks.get(name)?.is === "formula");
  if (instance !== undefined && issues.all.length === 0 && !isPlaced) known.set(key, instance);
  return issues.conclude(() => instance as KindInstance);
}

/** `instantiate` with the caller's list of issues; without a place, issues about ratings stand in the kind's own file. */
export function instantiateWith(
  kind: Kind,
  ratings: ReadonlyMap<string, RatingText>,
  issues: IssueList,
  place: Place = kind.file === undefined ? { at: [] } : { file: kind.file, at: [] },
): KindInstance | undefined {
  const answers = answer(kind, ratings, issues, place);
  const counts = new Map<string, number>();
  for (const [letter, rating] of kind.per) {
    const count = answers.ratings.get(rating)?.nominal ?? Number.NaN;
    if (Number.isInteger(count) && count >= 0 && count <= MOST_COPIES) {
      counts.set(letter, count);
      continue;
    }
    issues.add({
      code: "part.rating.count",
      severity: "error",
      ...place,
      at: [...place.at, rating],
      found: `${rating} of ${count}`,
      expected: `a whole number from 0 to ${MOST_COPIES}`,
    });
  }
  if (issues.hasErrors) return undefined;

  const holds = (condition: string, where: Place): boolean | undefined => {
    const parsed = issues.take(parseExpression(condition, where));
    if (parsed === undefined) return undefined;
    const evaluate = issues.take(
      compileExpression(parsed, {
        resolve: (ask) => {
          if (ask.for === "value") return answers.ratings.get(ask.name)?.nominal;
          if (ask.for !== "state" || ask.subject === undefined) return undefined;
          const word = answers.words.get(ask.subject);
          return word === undefined ? undefined : Number(word === ask.phrase);
        },
        known: () => [...answers.ratings.keys(), ...answers.words.keys()],
      }),
    );
    return evaluate === undefined ? undefined : evaluate(noMoment) !== 0;
  };
  const file = kind.file === undefined ? {} : { file: kind.file };
  const tree = expandTree(kind.tree, { counts, holds, issues, ...file });
  const errorsBefore = issues.all.length;
  const root = new Cursor(tree, { ...file, at: [] }, issues);
  const instance = readInstance(root, kind, answers);
  return issues.all.slice(errorsBefore).some((issue) => issue.severity === "error") ? undefined : instance;
}

/** Conditions on ratings look at no moment. */
const noMoment = new Proxy({} as Moment, {
  get: () => {
    throw new Error("a condition on ratings looks at no running machine");
  },
});

function answer(kind: Kind, ratings: ReadonlyMap<string, RatingText>, issues: IssueList, place: Place): Answers {
  const amounts = new Map<string, Rated>();
  const conditions = new Map<string, Expression>();
  const words = new Map<string, string>();
  const refuse = (
    name: string,
    line: number | undefined,
    code: string,
    found: string,
    expected: string,
    hint?: string,
  ) =>
    issues.add({
      code,
      severity: "error",
      ...place,
      ...(line === undefined ? {} : { line }),
      at: [...place.at, name],
      found,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
  for (const [name, rating] of ratings) {
    if (kind.asks.has(name)) continue;
    const hint = didYouMean(name, kind.asks.keys());
    refuse(name, rating.line, "part.rating.unknown", `"${name}"`, `a rating or pin of a ${kind.id}`, hint);
  }
  for (const [name, asked] of kind.asks) {
    const given = ratings.get(name);
    if (asked.is === "word") {
      const word = given?.text ?? asked.words[0] ?? "";
      if (asked.words.includes(word)) words.set(name, word);
      else {
        refuse(
          name,
          given?.line,
          "part.rating.word",
          `"${word}"`,
          asked.words.join(" | "),
          didYouMean(word, asked.words),
        );
      }
      continue;
    }
    if (given === undefined) {
      if (asked.otherwise === undefined) {
        refuse(name, undefined, "part.rating.missing", `no ${name}`, `${name}, which a ${kind.id} needs`);
      } else if (asked.is === "amount") amounts.set(name, asked.otherwise);
      else conditions.set(name, asked.otherwise);
      continue;
    }
    const where = { ...place, line: given.line, at: [...place.at, name] };
    if (asked.is === "formula") {
      const formula = issues.take(parseExpression(given.text, where));
      if (formula !== undefined) conditions.set(name, formula);
      continue;
    }
    const unit = asked.otherwise?.unit;
    const want = unit !== undefined && isUnitCode(unit) ? { ...where, unit } : where;
    const amount = issues.take(parseAmount(given.text, want));
    if (amount === undefined) continue;
    const source = amount.source ?? given.source;
    amounts.set(name, source === undefined ? amount : { ...amount, source });
  }
  return { ratings: amounts, conditions, words };
}
