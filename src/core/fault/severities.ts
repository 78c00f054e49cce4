import type { DoesRule, ModeRule } from "../part/index.ts";
import type { Cause, Machine, Part } from "../sheet/index.ts";
import type { Effect, Severity } from "./mode.ts";

/** Finds an element of a machine by its id; what stands in a kind is there, or assembling went wrong. */
export type ElementIndex = ReadonlyMap<string, number>;

export function elementIndex(machine: Machine): ElementIndex {
  return new Map(machine.elements.map((element, index) => [element.id, index]));
}

/**
 * The severities of one mode of one part: places and ohms are alternatives of equal weight. Several doings go hand in
 * hand when their lists are equally long or hold one alternative; else every pairing is an alternative.
 */
export function severitiesOf(machine: Machine, part: Part, mode: ModeRule, elements: ElementIndex): Severity[] {
  return weigh(combine(mode.does.map((rule) => alternatives(machine, part, rule, elements))));
}

/** The severities of a cause that is not electrical: values of the hands and of the world. */
export function severitiesOfCause(cause: Cause): Severity[] {
  return weigh(
    combine(cause.sets.map(({ variable, to }) => to.map((value) => [{ does: "set", variable, to: value }]))),
  );
}

type Alternative = readonly Effect[];

function alternatives(machine: Machine, part: Part, rule: DoesRule, elements: ElementIndex): Alternative[] {
  const element = (name: string): number => {
    const index = elements.get(`${part.id}.${name}`);
    if (index === undefined) throw new Error(`element "${part.id}.${name}" is not in the machine`);
    return index;
  };
  switch (rule.does) {
    case "open":
      return [rule.targets.map((name) => ({ does: "open", element: element(name) }))];
    case "closed":
      return [rule.targets.map((name) => ({ does: "short", element: element(name) }))];
    case "series":
    case "parallel":
    case "leak":
      return rule.ohms.map((ohms) => rule.targets.map((name) => ({ does: rule.does, element: element(name), ohms })));
    case "factor":
      return rule.by.map((by) => rule.targets.map((name) => ({ does: "factor", element: element(name), by })));
    case "leak-between":
      return rule.from.flatMap((from): Alternative[] =>
        rule.ohms.map((ohms) => [{ does: "leak", element: element(`leak ${from}-${rule.to}`), ohms }]),
      );
    case "stuck": {
      for (const set of part.stateSets) {
        const state = machine.stateSets[set].states.indexOf(rule.state);
        if (state >= 0) return [[{ does: "stuck", set, state }]];
      }
      throw new Error(`part "${part.id}" has no state "${rule.state}"`);
    }
    case "set": {
      const variable = part.knobs.get(rule.knob);
      if (variable === undefined) throw new Error(`part "${part.id}" has no knob "${rule.knob}"`);
      return rule.to.map((to) => [{ does: "set", variable, to }]);
    }
  }
}

function combine(lists: readonly Alternative[][]): Alternative[] {
  const longest = Math.max(1, ...lists.map((list) => list.length));
  if (lists.every((list) => list.length === 1 || list.length === longest)) {
    return Array.from({ length: longest }, (_, index) => lists.flatMap((list) => list[list.length === 1 ? 0 : index]));
  }
  return lists.reduce<Alternative[]>(
    (built, list) => built.flatMap((before) => list.map((next) => [...before, ...next])),
    [[]],
  );
}

function weigh(found: readonly Alternative[]): Severity[] {
  return found.map((effects) => ({ weight: 1 / found.length, effects }));
}
