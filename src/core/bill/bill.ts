import type { Bank, Currency, Minor, Party, Rounding, Totals, VatRate } from "../money/index.ts";

/** A quote, an invoice or a credit note as data: what a paper and an electronic invoice are made from. */
export interface Bill {
  readonly kind: "quote" | "invoice" | "credit note";
  /** Of its series, given by the caller. */
  readonly number: string;
  /** ISO 8601: 2026-03-04 */
  readonly date: string;
  /** To be paid by; a quote holds until. */
  readonly due: string;
  /** The bill that a credit note takes back, and why. */
  readonly of?: { readonly number: string; readonly date: string; readonly why: string };
  readonly job: string;
  /** "tumble dryer: turns but stays cold" */
  readonly subject: string;
  readonly currency: Currency;
  readonly seller: Party;
  readonly registration?: string;
  readonly bank?: Bank;
  /** Who pays. */
  readonly buyer: Party;
  /** Who has the machine, where somebody else pays. */
  readonly occupant?: Party;
  readonly lines: readonly BillLine[];
  readonly totals: Totals;
  /** What the agreed price, tax included, lies above its net amounts and their tax; in `totals.rounded`. */
  readonly difference: Minor;
  readonly rounding: Rounding;
  /** Smallest amount that can be paid. */
  readonly step: Minor;
  /** Were the amounts agreed with tax? */
  readonly withTax: boolean;
  /** ISO 11649, of the number; absent on a quote. */
  readonly reference?: string;
}

export interface BillLine {
  readonly says: string;
  /** Up to three digits behind the point. */
  readonly quantity: number;
  readonly unit: BillUnit;
  /** As it was told: with tax where `withTax`. */
  readonly told: Minor;
  readonly net: Minor;
  readonly vat: VatRate;
}

/** Pieces or minutes. @source UN/ECE Recommendation 20 as EN 16931 uses it: C62, MIN */
export type BillUnit = "C62" | "MIN";
