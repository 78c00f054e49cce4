import { compileExpression } from "./compile.ts";
import type { Cursor } from "./cursor.ts";
import type { Moment } from "./expression.ts";
import type { Expression } from "./formula.ts";
import type { Answers } from "./instantiate.ts";
import type { ElementRule, ElementWhat } from "./kind.ts";
import { didYouMean } from "./nearest.ts";
import { parseExpression } from "./parse.ts";

export const ELEMENT_WHATS = [
  "R",
  "C",
  "L",
  "X",
  "switch",
  "V~",
  "V=",
  "leak",
] as const satisfies readonly ElementWhat[];
export const ELEMENT_KEYS = [...ELEMENT_WHATS, "from", "to", "closed-in", "turned"] as const;
/** Words that `does:` uses otherwise. */
const taken = new Set(["leak", "stuck", "set", "to", "ohms", "all"]);

/**
 * Primitive elements of a kind: `{R: coil, from: A1, to: A2}`, `{X: {still: 40R, turning: 500R}, ...}`,
 * `{switch: contact, ..., closed-in: pulled}`, `{V~: U, turned: 120, ...}`.
 *
 * Values are formulas over the ratings; each is worked out once here, so that a nonsense value is refused by its line.
 */
export function readElements(
  root: Cursor,
  answers: Answers,
  states: ReadonlyMap<string, string>,
): readonly ElementRule[] {
  return (root.field("elements")?.entries() ?? []).flatMap(([name, at]) => {
    at.onlyKeys(ELEMENT_KEYS);
    if (taken.has(name)) at.refuse("part.kind.element", "a name that does: has no use for", undefined, name);
    const given = ELEMENT_WHATS.filter((what) => at.field(what) !== undefined);
    const what = given[0];
    const from = at.need("from", "from: a pin or an inner point")?.word();
    const to = at.need("to", "to: a pin or an inner point")?.word();
    if (what === undefined || given.length > 1) {
      return (
        at.refuse(
          "part.kind.element",
          `one of ${ELEMENT_WHATS.join(" · ")}`,
          undefined,
          given.join(" and ") || "none",
        ) ?? []
      );
    }
    const value = readValue(at, what, answers, states);
    const degrees = at.field("turned")?.number(-360, 360);
    if (degrees !== undefined && what !== "V~") at.refuse("part.kind.element", "turned with V~ only");
    if (from === undefined || to === undefined || value === undefined) return [];
    if (from === to) at.refuse("part.kind.element", "two different ends", undefined, `both ends at ${from}`);
    return { name, what, from, to, value, ...(degrees === undefined ? {} : { degrees }) };
  });
}

function readValue(
  at: Cursor,
  what: ElementWhat,
  answers: Answers,
  states: ReadonlyMap<string, string>,
): ElementRule["value"] | undefined {
  const field = at.field(what);
  if (field === undefined) return undefined;
  const closedIn = at.field("closed-in");
  const knownState = (state: string, where: Cursor): boolean => {
    if (states.has(state)) return true;
    where.refuse("part.kind.state", "a state of this kind", didYouMean(state, states.keys()), `"${state}"`);
    return false;
  };
  const oneSet = (names: readonly string[], where: Cursor): void => {
    const sets = new Set(names.map((state) => states.get(state)));
    if (sets.size > 1) where.refuse("part.kind.state", "states of one set", undefined, names.join(", "));
  };
  if (what === "switch") {
    if (closedIn === undefined) return at.refuse("part.kind.element", "closed-in: the states in which it is closed");
    const closed = closedIn.words().filter((state) => knownState(state, closedIn));
    oneSet(closed, closedIn);
    const contact = readNumber(field, what, answers);
    return contact === undefined || closed.length === 0
      ? undefined
      : { byState: new Map(closed.map((state) => [state, contact])) };
  }
  if (closedIn !== undefined) closedIn.refuse("part.kind.element", "closed-in with switch only");
  if (!field.isMap) {
    const always = readNumber(field, what, answers);
    return always === undefined ? undefined : { always };
  }
  const byState = new Map<string, Expression>();
  for (const [state, entry] of field.entries()) {
    const value = knownState(state, entry) ? readNumber(entry, what, answers) : undefined;
    if (value !== undefined) byState.set(state, value);
  }
  oneSet([...byState.keys()], field);
  return { byState };
}

function readNumber(at: Cursor, what: ElementWhat, answers: Answers): Expression | undefined {
  // An absent leak is the rule; its ohms come with the fault.
  const text = what === "leak" && at.isEmpty ? "OL" : at.word("a formula over the ratings");
  if (text === undefined) return undefined;
  const expression = at.issues.take(parseExpression(text, at.place));
  if (expression === undefined) return undefined;
  const evaluate = at.issues.take(
    compileExpression(expression, {
      resolve: (ask) => (ask.for === "value" ? answers.ratings.get(ask.name)?.nominal : undefined),
      known: () => answers.ratings.keys(),
    }),
  );
  if (evaluate === undefined) return undefined;
  const value = evaluate(noMoment);
  const isVolts = what === "V~" || what === "V=";
  const mayBeOpen = what === "R" || what === "switch" || what === "leak";
  const isFit = isVolts ? Number.isFinite(value) : value >= 0 && (mayBeOpen || Number.isFinite(value));
  if (isFit) return expression;
  const expected = isVolts ? "volts" : `${mayBeOpen ? "ohms, or OL," : "a value"} not below zero`;
  return at.refuse("part.kind.value", expected, undefined, `${text} = ${value}`);
}

/** Values of elements are constants of a machine; asking a moment is a mistake of ours. */
const noMoment = new Proxy({} as Moment, {
  get: () => {
    throw new Error("the value of an element looks at no running machine");
  },
});
