import { type Ask, namesIn } from "./ask.ts";
import type { Cursor } from "./cursor.ts";
import type { Expression } from "./formula.ts";
import type { Answers } from "./instantiate.ts";
import type { MoveRule, StateSetRule } from "./kind.ts";
import { didYouMean } from "./nearest.ts";
import { parseExpression } from "./parse.ts";
import type { KindNames } from "./read-modes.ts";
import type { StateNames } from "./read-states.ts";

export const MOVE_KEYS = ["to", "when", "takes", "from", "permanent", "set"] as const;
export const HASTES = ["now", "seconds", "minutes"] as const;

/** The moves of a kind's states and the words it gives, with every name in them checked. */
export function readFormulas(
  root: Cursor,
  sets: readonly StateNames[],
  names: KindNames,
  answers: Answers,
): { readonly stateSets: readonly StateSetRule[]; readonly gives: ReadonlyMap<string, Expression> } {
  const given = root.field("gives")?.entries() ?? [];
  const values = new Set([
    ...answers.ratings.keys(),
    ...answers.conditions.keys(),
    ...names.knobs,
    ...given.map(([name]) => name),
    ...(root.field("sees")?.words() ?? []),
    ...names.elements.flatMap((element) => [`${element}.volts`, `${element}.amps`, `${element}.watts`]),
  ]);
  const elements = new Set(names.elements);
  const words = new Set(answers.words.keys());

  const unknown = (ask: Ask): readonly [string, Iterable<string>] | undefined => {
    switch (ask.for) {
      case "value":
        return values.has(ask.name) ? undefined : [ask.name, values];
      case "between": {
        const end = [ask.from, ask.to].find((point) => !names.points.has(point));
        return end === undefined ? undefined : [end, names.points];
      }
      case "cross":
      case "apart": {
        const element = [ask.a, ask.b].find((name) => !elements.has(name));
        return element === undefined ? undefined : [element, elements];
      }
      case "state":
        if (ask.subject !== undefined) return words.has(ask.subject) ? undefined : [ask.subject, words];
        return names.states.has(ask.phrase) ? undefined : [ask.phrase, names.states];
      case "hottest":
        return [`hottest ${ask.group}`, []];
      case "good":
        return undefined;
    }
  };
  const formula = (at: Cursor | undefined): Expression | undefined => {
    const text = at?.word("a formula");
    if (at === undefined || text === undefined) return undefined;
    const expression = at.issues.take(parseExpression(text, at.place));
    if (expression === undefined) return undefined;
    for (const ask of namesIn(expression)) {
      const missing = unknown(ask);
      if (missing === undefined) continue;
      const [name, known] = missing;
      at.refuse("part.kind.unknown-name", "a name of this kind", didYouMean(name, known), `"${name}" in "${text}"`);
    }
    return expression;
  };

  const moves = (root.field("moves")?.items() ?? []).flatMap((at) => readMove(at, sets, formula));
  const stateSets = sets.map((set) => ({
    ...set,
    moves: moves.filter((move) => move.set === set.name).map(({ set: _, ...move }) => move),
  }));
  const gives = new Map<string, Expression>();
  for (const [name, at] of given) {
    const expression = formula(at);
    // From a sheet `part.name` must mean one thing.
    if (names.knobs.has(name)) at.refuse("part.kind.knob-and-gives", "a name that is no knob", undefined, name);
    if (expression !== undefined) gives.set(name, expression);
  }
  return { stateSets, gives };
}

/** `{to: pulled, when: coil.volts > 9 V, takes: now, from: [...], permanent: yes}`; `set:` may name the set. */
function readMove(
  at: Cursor,
  sets: readonly StateNames[],
  formula: (at: Cursor | undefined) => Expression | undefined,
): readonly (MoveRule & { readonly set: string })[] {
  at.onlyKeys(MOVE_KEYS);
  const to = at.need("to", "to: a state")?.word();
  const when = formula(at.need("when", "when: a condition"));
  const takes = at.need("takes", "takes: now | seconds | minutes")?.choice(HASTES);
  const permanent = at.field("permanent")?.yesNo() ?? false;
  const from = at.field("from")?.words();
  const states = sets.flatMap((set) => set.states);
  const set = sets.find((candidate) => to !== undefined && candidate.states.includes(to));
  if (to === undefined || when === undefined || takes === undefined) return [];
  if (set === undefined) {
    at.field("to")?.refuse("part.kind.state", "a state of this kind", didYouMean(to, states));
    return [];
  }
  const named = at.field("set")?.choice(sets.map((candidate) => candidate.name));
  if (named !== undefined && named !== set.name) at.refuse("part.kind.state", `a state of ${named}`, undefined, to);
  const astray = from?.find((state) => !set.states.includes(state));
  if (astray !== undefined) {
    at.field("from")?.refuse("part.kind.state", `states of ${set.name}`, didYouMean(astray, set.states), `"${astray}"`);
  }
  return [{ set: set.name, to, when, takes, permanent, ...(from === undefined ? {} : { from }) }];
}
