import type { OutcomeTable } from "../suspect/index.ts";
import type { Board } from "./ground.ts";

/** Joint outcomes kept apart; the lightest are taken together beyond that. */
const MOST_CELLS = 14;
/** A joint outcome rarer than this is taken together with the others. */
const RARE = 3e-3;

/** One joint outcome of some questions: how each came out, and the weights of the hypotheses that remain. */
export interface Cell {
  /** Outcome index by question taken; -1 where rare outcomes were taken together. */
  readonly path: readonly number[];
  readonly weights: Float64Array;
  readonly chance: number;
}

/** Before anything is asked. */
export function wholeOf(board: Board): Cell {
  return { path: [], weights: board.live.weights, chance: 1 };
}

/** Every cell parted by one more question; rare joint outcomes are taken together (which can only lose worth). */
export function split(cells: readonly Cell[], table: OutcomeTable): Cell[] {
  const next: Cell[] = [];
  for (const cell of cells) {
    for (const [o, chance] of table.chance.entries()) {
      const weights = new Float64Array(cell.weights.length);
      let sum = 0;
      for (let i = 0; i < weights.length; i++) {
        const w = (cell.weights[i] as number) * (chance[i] as number);
        weights[i] = w;
        sum += w;
      }
      if (sum > 1e-12) next.push({ path: [...cell.path, o], weights, chance: sum });
    }
  }
  next.sort((a, b) => b.chance - a.chance);
  const kept = next.filter((cell, n) => n < MOST_CELLS - 1 && cell.chance >= RARE);
  const rare = next.slice(kept.length);
  const [only] = rare;
  if (only === undefined || rare.length === 1) return next;
  const weights = new Float64Array(only.weights.length);
  for (const cell of rare) {
    for (let i = 0; i < weights.length; i++) weights[i] = (weights[i] as number) + (cell.weights[i] as number);
  }
  return [
    ...kept,
    { path: only.path.map(() => -1), weights, chance: rare.reduce((sum, cell) => sum + cell.chance, 0) },
  ];
}

/** The heaviest cells, all others taken together. */
export function coarse(cells: readonly Cell[], most: number): readonly Cell[] {
  if (cells.length <= most) return cells;
  const sorted = [...cells].sort((a, b) => b.chance - a.chance);
  const rest = sorted.slice(most - 1);
  const weights = new Float64Array((rest[0] as Cell).weights.length);
  for (const cell of rest) {
    for (let i = 0; i < weights.length; i++) weights[i] = (weights[i] as number) + (cell.weights[i] as number);
  }
  return [
    ...sorted.slice(0, most - 1),
    { path: [], weights, chance: rest.reduce((sum, cell) => sum + cell.chance, 0) },
  ];
}
