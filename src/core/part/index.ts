// The door of `part`: texts as trees with lines, the language of conditions, and part kinds.
export { type Ask, holdsAt, nameOf, namesIn } from "./ask.ts";
export { compileExpression, type Resolver, splitAt, type TimedTest } from "./compile.ts";
export { Cursor, readWith } from "./cursor.ts";
export type * from "./expression.ts";
export type * from "./formula.ts";
export { instantiate, type RatingText } from "./instantiate.ts";
export type * from "./kind.ts";
export { kindSchema } from "./kind-schema.ts";
export { didYouMean, nearest } from "./nearest.ts";
export { optional } from "./optional.ts";
export { parseExpression } from "./parse.ts";
export type { Place } from "./place.ts";
export { readKind } from "./read-kind.ts";
export { readTree } from "./read-tree.ts";
export {
  AMOUNT,
  CHANCE,
  choice,
  closed,
  FORMULA,
  FORMULAS,
  listOf,
  mapOf,
  NOTE,
  numberFrom,
  PAIR,
  type Schema,
  SOURCE,
  says,
  TEXT,
  TEXT_OR_NOTHING,
  WORDS,
  YES_NO,
} from "./schema.ts";
export { readSource } from "./source.ts";
export type { Tree, TreeEntry, TreeList, TreeMap, TreeText } from "./tree.ts";
