/**
 * Words of the Open Repair Data Standard: columns, outcomes, barriers, categories.
 *
 * @source Open Repair Data Standard v0.3 (2021-12-07), github.com/openrepair/datastandard, standard.rst: fields and codelists
 */
export const COLUMNS = [
  "id",
  "data_provider",
  "country",
  "partner_product_category",
  "product_category",
  "product_category_id",
  "brand",
  "year_of_manufacture",
  "product_age",
  "repair_status",
  "repair_barrier_if_end_of_life",
  "group_identifier",
  "event_date",
  "problem",
] as const;
export type Column = (typeof COLUMNS)[number];

/** In the order of their codes, from 0. */
export const STATUSES = ["Unknown", "Fixed", "Repairable", "End of life"] as const;
export type Status = (typeof STATUSES)[number];

/** Why it came to an end, in the order of their codes, from 1. */
export const BARRIERS = [
  "Spare parts not available",
  "Spare parts too expensive",
  "No way to open product",
  "Repair information not available",
  "Lack of equipment",
  "Item too worn out",
] as const;
export type Barrier = (typeof BARRIERS)[number];

/** Other wordings of a barrier, in the standard's own prose, in its schema, or in what partners publish. */
export const BARRIER_ALSO: ReadonlyMap<string, Barrier> = new Map([
  ["No way to open the product", "No way to open product"],
  ["Product too worn out", "Item too worn out"],
  ["Too worn out", "Item too worn out"],
]);

/** In the order of their codes, from 1. */
export const CATEGORIES = [
  "Aircon/dehumidifier",
  "Battery/charger/adapter",
  "Decorative or safety lights",
  "Desktop computer",
  "Digital compact camera",
  "DSLR/video camera",
  "Fan",
  "Flat screen",
  "Hair & beauty item",
  "Handheld entertainment device",
  "Headphones",
  "Hi-Fi integrated",
  "Hi-Fi separates",
  "Kettle",
  "Lamp",
  "Laptop",
  "Large home electrical",
  "Misc",
  "Mobile",
  "Musical instrument",
  "Paper shredder",
  "PC accessory",
  "Portable radio",
  "Power tool",
  "Printer/scanner",
  "Projector",
  "Sewing machine",
  "Small home electrical",
  "Small kitchen item",
  "Tablet",
  "Toaster",
  "Toy",
  "TV and gaming-related accessories",
  "Vacuum",
  "Watch/clock",
  "Coffee maker",
  "Food processor",
  "Games console",
  "Hair dryer",
  "Iron",
] as const;
export type Category = (typeof CATEGORIES)[number];

/** One attempt at a repair. What was not told is absent, never a word that stands for nothing. */
export interface Repair {
  /** Letters, a hyphen, a number: `ferrybank-260101`. */
  readonly id: string;
  readonly provider: string;
  /** ISO 3166-1, three letters. */
  readonly country?: string;
  /** What it is, in the provider's own words. */
  readonly partnerCategory: string;
  readonly category?: Category;
  readonly brand?: string;
  readonly madeIn?: number;
  /** Years, one decimal at most. */
  readonly ageYears?: number;
  readonly status: Status;
  /** Only of an end of life. */
  readonly barrier?: Barrier;
  readonly group?: string;
  /** ISO 8601: 2026-03-04 */
  readonly date?: string;
  readonly problem: string;
}
