import type { Party, VatRate } from "../money/index.ts";

/** What was agreed, asked and paid. Amounts are plain numbers of the shop's currency, as told to the customer. */
export type MoneyEvent =
  /** Who has the machine, and who pays where that is somebody else. */
  | { readonly kind: "customer" | "payer"; readonly party: Party }
  /** So much may be spent without asking again; the last word counts. */
  | { readonly kind: "allowed"; readonly amount: number; readonly who?: string; readonly how?: string }
  /** What is to be paid for coming, and for finding the fault: told before the work begins. */
  | ({ readonly kind: "fees" } & Fees)
  /** What the customer was shown: kept as it was told, however the odds change. */
  | { readonly kind: "offered"; readonly choices: readonly OfferedChoice[] }
  | ({ readonly kind: "accepted" } & Answered)
  | ({ readonly kind: "declined" } & Answered)
  /** A line of the bill as agreed; where there is one, the bill is made of such lines alone. */
  | ({ readonly kind: "charged" } & Charge)
  /** A paper was handed over: kept as it was, with its hash. */
  | ({ readonly kind: "issued" } & IssuedPaper)
  | {
      readonly kind: "paid";
      readonly amount: number;
      readonly how?: string;
      readonly number?: string;
      readonly date?: string;
    }
  | ({ readonly kind: "ordered" } & Order)
  | { readonly kind: "arrived"; readonly part: string };

export interface Fees {
  readonly callOut: number;
  /** For finding the fault where it is then not mended. */
  readonly diagnosis: number;
  /** To whom, and by what way. */
  readonly who?: string;
  readonly how?: string;
}

export interface OfferedChoice {
  readonly choice: string;
  readonly says: string;
  /** What it comes to when it is carried out. */
  readonly price: number;
}

export interface Answered {
  /** A choice by its id; `all` of them declined. */
  readonly choice: string;
  /** The price agreed, where it is not the one offered. */
  readonly price?: number;
  /** A photo or drawing by its name; or "refused to sign". */
  readonly signed?: string;
  readonly who?: string;
}

export const CHARGES = ["call-out", "diagnosis", "work", "part", "visit", "discount", "other"] as const;

export interface Charge {
  readonly what: (typeof CHARGES)[number];
  readonly says: string;
  /** Of all of them together; a discount below zero. */
  readonly amount: number;
  readonly quantity?: number;
  /** Where it is not the shop's own. */
  readonly vat?: VatRate;
}

export interface IssuedPaper {
  readonly paper: string;
  readonly number: string;
  /** ISO 8601: 2026-03-04 */
  readonly date: string;
  /** Number of the paper that it takes back or changes: a credit note's invoice. */
  readonly of?: string;
  /** To be paid; below zero it is paid back. */
  readonly total?: number;
  /** SHA-256 of the content, hexadecimal. */
  readonly hash?: string;
  readonly content?: string;
}

export interface Order {
  readonly part: string;
  readonly says?: string;
  readonly price?: number;
  readonly from?: string;
  /** When it should be there, ISO 8601. */
  readonly due?: string;
}
