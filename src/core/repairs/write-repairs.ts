import { csvText } from "../csv/index.ts";
import { CATEGORIES, COLUMNS, type Column, type Repair } from "./repair.ts";

/**
 * Repairs as a file of the Open Repair Data Standard, all its columns in the published order; ids with the hyphen that its schema
 * asks for. What is read from it again is the same, word for word.
 */
export function writeRepairs(repairs: readonly Repair[]): string {
  return csvText([COLUMNS, ...repairs.map((repair) => COLUMNS.map((column) => CELLS[column](repair)))]);
}

const CELLS: Readonly<Record<Column, (repair: Repair) => string>> = {
  id: ({ id }) => id,
  data_provider: ({ provider }) => provider,
  country: ({ country = "" }) => country,
  partner_product_category: ({ partnerCategory }) => partnerCategory,
  product_category: ({ category = "" }) => category,
  product_category_id: ({ category }) => (category === undefined ? "" : String(CATEGORIES.indexOf(category) + 1)),
  brand: ({ brand = "Unknown" }) => brand,
  year_of_manufacture: ({ madeIn }) => (madeIn === undefined ? "" : String(madeIn).padStart(4, "0")),
  product_age: ({ ageYears }) => (ageYears === undefined ? "" : String(Math.round(ageYears * 10) / 10)),
  repair_status: ({ status }) => status,
  repair_barrier_if_end_of_life: ({ barrier = "" }) => barrier,
  group_identifier: ({ group = "" }) => group,
  event_date: ({ date = "" }) => date,
  problem: ({ problem }) => problem,
};
