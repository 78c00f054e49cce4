import { priceOf, type Shop } from "./shop.ts";

/** A machine of unknown age is taken to be half way through its life. */
const UNKNOWN_AGE_SHARE = 0.5;
/** However old it is, a machine that was mended is good for three years more, or five (common practice, no source). */
const LEAST_YEARS = 3;

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
  const years = ageYears === undefined ? UNKNOWN_AGE_SHARE * shop.serviceYears : shop.serviceYears - ageYears;
  const share = Math.min(1, Math.max(years, LEAST_YEARS) / shop.serviceYears);
  return (replacementPrice ?? shop.newMachine) * share + priceOf(shop.minutes.wrapUp, shop);
}
