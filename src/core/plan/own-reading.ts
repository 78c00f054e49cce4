import type { OutcomeTable } from "../suspect/index.ts";
import { addsTo, type Told } from "./adds-to.ts";
import { heaviestPlace } from "./by-target.ts";
import type { Cell } from "./cells.ts";
import type { Board } from "./ground.ts";
import type { Offer } from "./offer.ts";

/** An outcome from here is what one expects; a part from here would be condemned by it. */
const MOSTLY = 0.5;

/**
 * The reading of a part by itself, one wire off, that is still missing where the likeliest outcome of the others would
 * condemn that part: while the hands are there it is taken, and no second way is made for it.
 *
 * @param known  what the other questions tell
 * @returns      index of the question, or undefined
 */
export function ownReading(
  board: Board,
  { questions }: Offer,
  tables: readonly OutcomeTable[],
  cells: readonly Cell[],
  known: Told,
): number | undefined {
  const likeliest = cells.find(({ chance, path }) => chance >= MOSTLY && !path.includes(-1));
  if (likeliest === undefined) return undefined;
  const { id: condemned, weight } = heaviestPlace(board, likeliest.weights);
  if (weight < MOSTLY * likeliest.chance) return undefined;
  const index = tables.findIndex((table, n) => {
    const state = questions[n]?.probe?.state;
    return state?.kind === "dead" && state.freed.includes(condemned) && addsTo(board, known, table);
  });
  return index < 0 ? undefined : index;
}
