import type { Minor } from "./amount.ts";
import { divideRounded, type Rounding } from "./rounding.ts";

/**
 * How an amount stands to value added tax: at a rate, at zero, exempt, to be paid by the buyer, or outside its scope (a
 * shop too small to be registered).
 *
 * @source UNCL 5305 as EN 16931 uses it: S, Z, E, AE, O
 */
export const VAT_CATEGORIES = ["S", "Z", "E", "AE", "O"] as const;
export type VatCategory = (typeof VAT_CATEGORIES)[number];

export interface VatRate {
  readonly category: VatCategory;
  /** Hundredths of a percent: 1900 is 19 %. Zero in all categories but S. */
  readonly hundredths: number;
  /** Why there is none: asked for by E, AE and O. */
  readonly reason?: string;
}

const NEEDS_REASON: ReadonlySet<VatCategory> = new Set(["E", "AE", "O"]);

/**
 * Do category, rate and reason fit? Only S has a rate above zero; E, AE and O tell why, S and Z do not.
 *
 * @param percent  0 to 100, two digits behind the point at most
 * @source EN 16931: BR-S-05, BR-Z-05, BR-E-05, BR-E-10, BR-AE-05, BR-AE-10, BR-O-05, BR-O-10
 */
export function fitsVat(category: VatCategory, percent: number, reason = ""): boolean {
  const hundredths = Math.round(percent * 100);
  const isWritten = Math.abs(hundredths - percent * 100) < 1e-6 && hundredths >= 0 && hundredths <= 10_000;
  return isWritten && (category === "S") === hundredths > 0 && NEEDS_REASON.has(category) === (reason !== "");
}

/** A rate that may stand on an invoice. @throws RangeError where `fitsVat` says no */
export function vatRate(category: VatCategory, percent = 0, reason = ""): VatRate {
  if (!fitsVat(category, percent, reason)) throw new RangeError(`vatRate: ${category} at ${percent} %, "${reason}"`);
  return { category, hundredths: Math.round(percent * 100), ...(reason === "" ? {} : { reason }) };
}

/** The tax on a net amount: BR-CO-17 with our own rounding stated. */
export function taxOn(net: Minor, { hundredths }: VatRate, rounding: Rounding): Minor {
  return divideRounded(BigInt(net) * BigInt(hundredths), 10_000n, rounding);
}

/** Amounts of one category and rate are one group and taxed together (BR-CO-18); the group tells its first reason. */
export function vatKey({ category, hundredths }: VatRate): string {
  return `${category} ${hundredths}`;
}

/** "19", "7.7": percent without zeros that say nothing. */
export function percentText({ hundredths }: VatRate): string {
  return String(hundredths / 100);
}
