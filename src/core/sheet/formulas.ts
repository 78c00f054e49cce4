import type { IssueList } from "../issue/index.ts";
import type { Haste } from "../part/index.ts";
import {
  type Cursor,
  compileExpression,
  type Evaluate,
  type Expression,
  parseExpression,
  type Resolver,
  splitAt,
  type Tree,
} from "../part/index.ts";
import type { SignTest } from "./machine.ts";
import type { Names } from "./names.ts";

/** Expressions by the text of the file they were parsed from: combinations of one sheet parse each formula once. */
const parsed = new WeakMap<Tree, Expression>();

/** The formula written at a cursor, parsed; an issue when it is none. */
export function expressionAt(cursor: Cursor): Expression | undefined {
  const known = parsed.get(cursor.tree);
  if (known !== undefined) return known;
  const text = cursor.word("a condition or formula");
  if (text === undefined) return undefined;
  const expression = cursor.issues.take(parseExpression(text, cursor.place));
  if (expression !== undefined) parsed.set(cursor.tree, expression);
  return expression;
}

/** Compiles the formulas of one machine. */
export class Formulas {
  readonly #issues: IssueList;
  readonly #names: Names;

  constructor(names: Names, issues: IssueList) {
    this.#names = names;
    this.#issues = issues;
  }

  /** The formula at a cursor with the sheet's names. */
  at(cursor: Cursor | undefined): Evaluate | undefined {
    const expression = cursor === undefined ? undefined : expressionAt(cursor);
    return expression && this.compile(expression, this.#names.ofSheet);
  }

  /** Several formulas that must all hold (guards that add up); `undefined` when there is none. */
  allAt(cursors: readonly Cursor[]): Evaluate | undefined {
    const conditions = cursors.flatMap((cursor) => this.at(cursor) ?? []);
    const [first, second] = conditions;
    if (first === undefined || second === undefined) return first;
    return (moment) => {
      for (const condition of conditions) if (condition(moment) === 0) return 0;
      return 1;
    };
  }

  /** A sign's condition, taken apart at its `at`s. */
  testAt(cursor: Cursor, otherwise: Haste | "end"): SignTest | undefined {
    const expression = expressionAt(cursor);
    return expression && this.#issues.take(splitAt(expression, otherwise, this.#names.ofSheet));
  }

  compile(expression: Expression, resolver: Resolver): Evaluate | undefined {
    return this.#issues.take(compileExpression(expression, resolver));
  }
}
