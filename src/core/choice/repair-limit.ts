import type { Shop } from "../remedy/index.ts";
import { priceOf, stopCost } from "../remedy/index.ts";
import type { ServiceLife } from "./life.ts";

/** How much a repair may cost before a new machine is the better buy; the decision is the customer's. */
export interface RepairLimit {
  /** Price of a comparable new machine. */
  readonly newPrice: number;
  readonly ageYears?: number;
  /** Years such a machine serves; without a `life` they are the shop's own figure. */
  readonly serviceYears: number;
  readonly life?: ServiceLife;
  /** What the machine, mended, is still worth: up to here a repair pays. */
  readonly upTo: number;
  /** What a new machine costs for each year that it serves. */
  readonly perYear: number;
}

/**
 * The limit from age, service life and the price of a new machine.
 *
 * @source straight-line share of the life left, three years at least, as in `stopCost` of the planner: common practice, no source
 */
export function repairLimit(
  shop: Shop,
  life: ServiceLife | undefined,
  ageYears?: number,
  replacementPrice?: number,
): RepairLimit {
  const serviceYears = life?.years ?? shop.serviceYears;
  const aged: Shop = { ...shop, serviceYears };
  const newPrice = replacementPrice ?? shop.newMachine;
  return {
    newPrice,
    ...(ageYears === undefined ? {} : { ageYears }),
    serviceYears,
    ...(life === undefined ? {} : { life }),
    upTo: stopCost(aged, ageYears, newPrice) - priceOf(shop.minutes.wrapUp, shop),
    perYear: newPrice / serviceYears,
  };
}

/** Years that the machine must go on so that a repair at this price costs no more a year than a new machine. */
export function breakEvenYears(price: number, { perYear }: RepairLimit): number {
  return price / perYear;
}
