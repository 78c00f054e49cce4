import { priceOf, type Shop } from "./shop.ts";

/** A machine of unknown age is taken to be half way through its life. */
const UNKNOWN_AGE_SHARE = 0.5;
/** An old machine that works is still worth something to its owner (common practice, no source). */
const LEAST_SHARE = 0.15;

/**
 * What is lost when the job stops without a repair: what the machine, mended, would still be worth, and the time to
 * stop well. A repair that costs more than this is not worth it.
 *
 * @param ageYears          age of the machine, where known
 * @param replacementPrice  price of a comparable new machine, where the job knows better than the shop's list
 * @returns                 money
 * @source                  straight-line share of the service life left: common practice, no source
 */
export function stopCost(shop: Shop, ageYears?: number, replacementPrice?: number): number {
  const share = ageYears === undefined ? UNKNOWN_AGE_SHARE : 1 - ageYears / shop.serviceYears;
  return (replacementPrice ?? shop.newMachine) * Math.max(share, LEAST_SHARE) + priceOf(shop.minutes.wrapUp, shop);
}
