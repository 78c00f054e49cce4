import type { OutcomeTable } from "../suspect/index.ts";
import type { Cell } from "./cells.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import type { SetUp } from "./set-up.ts";
import type { Surveyed } from "./survey.ts";

/** An offer with what it is worth. */
export interface Valued {
  readonly offer: Offer;
  readonly setUp: SetUp;
  readonly taken: readonly OfferQuestion[];
  readonly tables: readonly OutcomeTable[];
  readonly cells: readonly Cell[];
  /** Access groups open afterwards. */
  readonly open: Uint8Array;
  readonly minutes: number;
  /** Money of the step itself. */
  readonly cost: number;
  /** Expected money to the end with it; with nothing but the base policy after it; and by the base policy without it. */
  readonly expectedCost: number;
  readonly alone: number;
  readonly without: number;
}

/** An offer after the first look: its best single question, and the least its batch could come to. */
export interface Glance extends Valued {
  readonly surveyed: Surveyed;
  readonly hope: number;
  /** Questions that tell anything, the best by themselves first. */
  readonly order: readonly number[];
}

/** Access groups that are open after both. */
export function bothOpen(one: Pick<Valued, "open">, other: Pick<Valued, "open">): Uint8Array {
  return Uint8Array.from(one.open, (value, g) => Math.max(value, other.open[g] as number));
}
