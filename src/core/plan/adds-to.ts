import type { OutcomeTable } from "../suspect/index.ts";
import type { Board } from "./ground.ts";

/** What some questions tell if all goes as foreseen, without a slip: a group by live hypothesis; equal ones look alike. */
export type Told = Int32Array;

/** A question must tell so much (nats) of what is to be mended to be new beside the others: what makes sure is not. */
const NEW = 0.005;

/** Before anything is asked: all look alike. */
export function nothingTold({ live }: Board): Told {
  return new Int32Array(live.weights.length);
}

/** The same with one more question: every group parted by what the question most likely shows under each. */
export function told(known: Told, table: OutcomeTable): Told {
  return known.map((group, i) => group * table.chance.length + likeliest(table, i));
}

/** Does a question tell anything of what is to be mended that is not told already? */
export function addsTo({ live, ground }: Board, known: Told, table: OutcomeTable): boolean {
  const groups = new Map<number, Map<number, number[]>>();
  for (let i = 0; i < live.weights.length; i++) {
    const group = known[i] as number;
    const sides = groups.get(group) ?? new Map<number, number[]>();
    groups.set(group, sides);
    const side = likeliest(table, i);
    sides.set(side, [...(sides.get(side) ?? []), i]);
  }
  let nats = 0;
  for (const sides of groups.values()) {
    if (sides.size < 2) continue;
    const whole = new Map<number, number>();
    for (const side of sides.values()) nats -= doubt(side, whole);
    nats += doubtIn([...whole.values()]);
  }
  return nats > NEW;

  /** Doubt left on one side, its targets added to the whole. */
  function doubt(side: readonly number[], whole: Map<number, number>): number {
    const held = new Map<number, number>();
    for (const i of side) {
      const target = ground.targetOf[i] as number;
      const w = live.weights[i] as number;
      held.set(target, (held.get(target) ?? 0) + w);
      whole.set(target, (whole.get(target) ?? 0) + w);
    }
    return doubtIn([...held.values()]);
  }
}

/** Entropy of a share of the belief, times its weight. */
function doubtIn(weights: readonly number[]): number {
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.reduce((nats, w) => nats + (w > 0 ? w * Math.log(sum / w) : 0), 0);
}

function likeliest({ chance }: OutcomeTable, hypothesis: number): number {
  let best = 0;
  for (let o = 1; o < chance.length; o++) {
    if ((chance[o]?.[hypothesis] ?? 0) > (chance[best]?.[hypothesis] ?? 0)) best = o;
  }
  return best;
}
