import type { Cursor, Expression } from "../part/index.ts";
import type { Assembled } from "./assemble.ts";
import { expressionAt } from "./formulas.ts";
import { holdTogether, neverHolds } from "./ranges.ts";

/** Conditions that can never hold, and states that would chatter between two moves. */
export function checkFormulas(assembled: Assembled): void {
  checkGuards(assembled);
  checkMoves(assembled);
}

function checkGuards({ merged, issues }: Assembled): void {
  const never = (cursor: Cursor, what: string): void => {
    const expression = expressionAt(cursor);
    if (expression === undefined || !neverHolds(expression)) return;
    cursor.warn("sheet.guard.never", `${what} that can hold`, "Read it again: its parts exclude one another.");
  };
  for (const [, guard] of merged.section("guards", issues)) for (const one of guard.items()) never(one, "a guard");
  for (const one of merged.single("run-by", issues)?.items() ?? []) never(one, "a condition");
  for (const [, step] of merged.section("steps", issues)) {
    for (const key of ["guards", "needs", "enters-if"] as const) {
      for (const [, guard] of step.field(key)?.entries() ?? []) for (const one of guard.items()) never(one, "a guard");
    }
    for (const [, timeOut] of step.field("time-outs")?.entries() ?? []) {
      const condition = timeOut.field("if");
      if (condition !== undefined) never(condition, "a condition");
    }
  }
  for (const [, sign] of merged.section("signs", issues)) {
    for (const key of ["true-when", "when-first"] as const) {
      const condition = sign.field(key);
      if (condition !== undefined) never(condition, "a condition");
    }
  }
}

/** Two moves of one set of states whose conditions surely hold together: `opens` below `closes`, and the like. */
function checkMoves({ machine, draft }: Assembled): void {
  for (const part of machine.parts) {
    const drawn = draft.parts.get(part.id);
    const { ratings, knobs } = part.instance;
    const constantOf = (name: string): number | undefined => ratings.get(name)?.nominal ?? knobs.get(name);
    for (const set of part.instance.stateSets) {
      set.moves.forEach((move, index) => {
        for (const other of set.moves.slice(index + 1)) {
          if (move.to === other.to || move.permanent || other.permanent) continue;
          if (!meet(move, other) || !holdTogether(move.when, other.when, constantOf)) continue;
          const found = `${move.to} when ${move.when.text}, ${other.to} when ${other.when.text}`;
          drawn?.cursor.warn("sheet.part.chatters", "moves that exclude one another", "Check its ratings.", found);
        }
      });
    }
  }
}

/** Are both moves looked at in some one state? A move away from the other's end is no contradiction. */
function meet(
  a: { readonly from?: readonly string[]; readonly to: string; readonly when: Expression },
  b: typeof a,
): boolean {
  if (a.from === undefined || b.from === undefined) return true;
  return a.from.some((state) => b.from?.includes(state)) || (a.from.includes(b.to) && b.from.includes(a.to));
}
