import type { Cursor } from "./cursor.ts";

export const STATE_SET_KEYS = ["states", "keeps"] as const;

/** A set of states before its moves are read. */
export interface StateNames {
  readonly name: string;
  readonly states: readonly string[];
  readonly keeps: boolean;
}

/**
 * `states: [released, pulled]` (one set, called `state`), or several: `{rotor: [still, turning], lock: {states: [...], keeps: yes}}`.
 * `keeps: yes` beside `states:` holds for all sets, `keeps: lock` for that one. A state's name belongs to one set only.
 */
export function readStateSets(root: Cursor): readonly StateNames[] {
  const at = root.field("states");
  if (at === undefined) return [];
  const keeps = root.field("keeps");
  const kept = keeps?.words("yes, no, or names of sets") ?? [];
  const sets: StateNames[] = [];
  const seen = new Set<string>();
  const add = (name: string, list: Cursor, ownKeeps: boolean): void => {
    const states = list.words("names of states");
    if (states.length < 2) list.refuse("part.kind.states", "two states or more, the one at rest first");
    for (const state of states) {
      if (seen.has(state)) list.refuse("part.kind.states", "each state once in a kind", undefined, `${state} twice`);
      seen.add(state);
    }
    sets.push({ name, states, keeps: ownKeeps || kept.includes("yes") || kept.includes(name) });
  };
  if (!at.isMap) add("state", at, false);
  else {
    for (const [name, entry] of at.entries()) {
      if (!entry.isMap) {
        add(name, entry, false);
        continue;
      }
      entry.onlyKeys(STATE_SET_KEYS);
      const list = entry.need("states");
      if (list !== undefined) add(name, list, entry.field("keeps")?.yesNo() ?? false);
    }
  }
  const known = new Set(["yes", "no", ...sets.map((set) => set.name)]);
  if (kept.some((word) => !known.has(word))) keeps?.refuse("part.kind.keeps", [...known].join(" | "));
  return sets;
}
