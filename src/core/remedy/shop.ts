import type { Bank, Party } from "../money/index.ts";
import type { Trading } from "./trading.ts";

/** What a shop charges, carries and holds to. Money is in the shop's own currency; times are minutes. */
export interface Shop {
  readonly id: string;
  readonly says: string;
  readonly currency: string;
  /** Price of an hour of work. */
  readonly perHour: number;
  readonly callOut: number;
  /** Cost of coming a second time with a part that was not in the van. */
  readonly secondVisit: number;
  /** What a repair that comes back within the guarantee costs the shop. */
  readonly comeback: number;
  /** What a part fitted for nothing loses beside its price and the time: it cannot be charged, and trust goes with it. */
  readonly wrongPart: number;
  /** Price of a comparable new machine, and the years such a machine serves. */
  readonly newMachine: number;
  readonly serviceYears: number;
  /** Money by which a clipped live step must beat every dead one before it is offered. */
  readonly liveMargin: number;
  /** Probes held by hand on live parts: off unless the shop turns it on. */
  readonly handheld: boolean;
  /** Minutes without an answer after which one stops and talks. */
  readonly timeStopMinutes: number;
  /** Part kinds carried in the van. */
  readonly van: ReadonlySet<string>;
  /** Instruments in the bag, by meter id, the one reached for first at the front. */
  readonly bag: readonly string[];
  readonly minutes: WorkMinutes;
  /** What it agrees with its customers, where the file tells: papers are made from it. */
  readonly trading?: Trading;
  readonly letterhead?: Letterhead;
}

/** Who the shop is, on its papers. */
export interface Letterhead {
  readonly party: Party;
  readonly bank?: Bank;
  /** "Registered under 123 at the court of Ostermoor" */
  readonly registration?: string;
}

/** How long the small acts take that no sheet gives. */
export interface WorkMinutes {
  readonly ask: number;
  readonly look: number;
  /** One reading at a place already reached. */
  readonly reading: number;
  readonly pullConnector: number;
  /** Taking one wire off a part so that it is read alone. */
  readonly freePart: number;
  /** Two-pole tester: prove, test all poles, prove again. */
  readonly proveDead: number;
  readonly energise: number;
  /** Letting the machine run into the step that is watched. */
  readonly runStep: number;
  /** Clipping leads on and taking them off, hands away in between. */
  readonly clip: number;
  readonly changeInstrument: number;
  readonly changePosition: number;
  /** Reading the same path again after a repair and watching it work. */
  readonly verify: number;
  /** Testing one part by itself once it is reached. */
  readonly check: number;
  /** One operation of a part that is tried again and again. */
  readonly operation: number;
  /** Explaining, writing down and making safe when the job stops without a repair. */
  readonly wrapUp: number;
}

/** Money for minutes of work. */
export function priceOf(minutes: number, shop: Shop): number {
  return (minutes * shop.perHour) / 60;
}
