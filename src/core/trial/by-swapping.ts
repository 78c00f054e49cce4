import { Rival } from "./rival.ts";
import type { Technician } from "./technician.ts";

/**
 * Swaps the likeliest part first: by the odds given what was told, the best remedy of each part or cause in turn, proved by
 * watching; stops when no remedy left is worth its price.
 */
export const bySwapping: Technician = (desk, hands) => new Rival(desk, hands).mendOnTheChance();
