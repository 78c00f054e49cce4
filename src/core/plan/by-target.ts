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
export function heaviestPlace(board: Board, weights: ArrayLike<number>): HeavyPlace {
  return heaviest(places(board, weights));
}

/** The heaviest of the places that something found made likelier; the heaviest of all where it made none so. */
export function likelierPlace(board: Board, weights: ArrayLike<number>, chance: number): HeavyPlace {
  const before = places(board, board.live.weights);
  const after = places(board, weights);
  const risen = [...after].filter(([id, { weight }]) => weight > chance * (before.get(id)?.weight ?? 0));
  return heaviest(risen.length === 0 ? after : new Map(risen));
}

/** A place at which something can be mended, and what it weighs. */
interface HeavyPlace {
  readonly id: string;
  /** The heaviest of its targets. */
  readonly target: number;
  readonly weight: number;
}

/** Live hypotheses come heaviest first, so the first target met of a place is its heaviest. */
function places({ ground }: Board, weights: ArrayLike<number>): Map<string, { target: number; weight: number }> {
  const held = new Map<string, { target: number; weight: number }>();
  for (let i = 0; i < weights.length; i++) {
    const target = ground.targetOf[i] as number;
    const id = ground.targets[target]?.id ?? "";
    const known = held.get(id);
    if (known === undefined) held.set(id, { target, weight: weights[i] as number });
    else known.weight += weights[i] as number;
  }
  return held;
}

function heaviest(held: ReadonlyMap<string, { readonly target: number; readonly weight: number }>): HeavyPlace {
  const [first] = [...held].sort(([, a], [, b]) => b.weight - a.weight);
  const [id, { target, weight }] = first ?? ["", { target: -1, weight: 0 }];
  return { id, target, weight };
}
