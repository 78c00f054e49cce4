import type { Told } from "../ledger/index.ts";
import type { SparePartDuty } from "./duty.ts";
import type { RepairLimit } from "./repair-limit.ts";
import type { Spread } from "./spread.ts";
import type { Way } from "./way.ts";

/** One row of what the customer can choose between. Money is in the shop's currency, chances are 0 to 1. */
export interface Choice {
  /** `heater/fit a new heater`, `drain-pump/fit a new one, used`, `find and mend`, `stop` */
  readonly id: string;
  readonly way: Way;
  /** "heater: fit a new heater" */
  readonly says: string;
  /** Part, assembly or cause it is done to, by id; several of one choice in the order they are done. */
  readonly on: readonly string[];
  /** What the customer pays when it is carried out: call-out, all work and parts, a second visit where it needs one. */
  readonly pays: Spread;
  /**
   * What it comes to in the end: what is paid, then what follows where it does not help (the next remedy, or the
   * machine lost), and the shop's share of a return. The figure the plan goes by.
   */
  readonly inTheEnd: Spread;
  /** Chance that it mends the machine. */
  readonly cured: number;
  /** Chance that the fault comes back within the guarantee (within twelve months where there is none), once mended. */
  readonly back?: number;
  readonly guaranteeMonths?: number;
  /** Minutes of work until it is mended, from now. */
  readonly minutes: number;
  /** A part has to be ordered: working days, where the shop tells them. */
  readonly order?: { readonly days?: { readonly lo: number; readonly hi: number }; readonly deposit: number };
  /** What it is likely to come to is more than may be spent without asking. */
  readonly overLimit: boolean;
  /** Protector of which it must be known why it opened, or it will open again. */
  readonly asksWhy?: string;
  /** Whether its maker is bound to deliver the part. */
  readonly duty?: SparePartDuty;
}

/** Everything for the page that is turned round to the customer. */
export interface Choices {
  readonly currency: string;
  /** Stopping is the last of them. */
  readonly choices: readonly Choice[];
  /** The likeliest fault and its odds; none where nothing is suspected. */
  readonly likeliest?: { readonly says: string; readonly p: number };
  readonly limit: RepairLimit;
  readonly callOut: number;
  /** For finding the fault, where it is then not mended. */
  readonly diagnosis?: number;
  /** What may be spent without asking, by whom, when. */
  readonly allowed?: Told<{ readonly amount: number; readonly who?: string; readonly how?: string }>;
  /** Who has to be asked, where somebody else pays. */
  readonly payer?: string;
}
