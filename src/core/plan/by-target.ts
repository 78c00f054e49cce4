import type { Ground, Target } from "./base-policy.ts";
import type { Board } from "./ground.ts";

/** What is gathered by: which hypothesis is mended where, and what each weighs. */
export interface ByTarget {
  readonly live: Pick<Board["live"], "weights">;
  readonly ground: Pick<Ground, "targetOf"> & { readonly targets: readonly Partial<Target>[] };
}

/**
 * Gathers the live weights by what would be mended.
 *
 * @param chance  of one outcome under each live hypothesis; left out: every weight counts whole
 * @param into    one number a target, overwritten
 * @returns       the sum of them all
 */
export function gatherByTarget(board: ByTarget, into: Float64Array, chance?: ArrayLike<number>): number {
  const { weights } = board.live;
  return gatherWeights(board, into, chance === undefined ? weights : weights.map((w, i) => w * (chance[i] as number)));
}

/** The same for weights of one's own, in the order of the live hypotheses. */
export function gatherWeights({ ground }: ByTarget, into: Float64Array, weights: ArrayLike<number>): number {
  const { targetOf } = ground;
  into.fill(0);
  let whole = 0;
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i] as number;
    const t = targetOf[i] as number;
    into[t] = (into[t] as number) + w;
    whole += w;
  }
  return whole;
}

/** The place with the most weight, with the heaviest of its targets. */
export function heaviestPlace(
  { ground }: Board,
  weights: ArrayLike<number>,
): { readonly id: string; readonly target: number; readonly weight: number } {
  const held = new Map<string, { target: number; weight: number }>();
  for (let i = 0; i < weights.length; i++) {
    const target = ground.targetOf[i] as number;
    const id = ground.targets[target]?.id ?? "";
    const known = held.get(id);
    if (known === undefined) held.set(id, { target, weight: weights[i] as number });
    else known.weight += weights[i] as number;
  }
  const [heaviest] = [...held].sort(([, a], [, b]) => b.weight - a.weight);
  const [id, { target, weight }] = heaviest ?? ["", { target: -1, weight: 0 }];
  return { id, target, weight };
}
