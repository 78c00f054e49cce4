import type { Checked } from "../issue/index.ts";
import { accept } from "../issue/index.ts";
import { parseAmount, type Want } from "./amount.ts";

/** What is good: from `lo` to `hi`, either of which may be infinite. */
export interface Limits {
  readonly lo: number;
  readonly hi: number;
}

/**
 * Reads limits as a sheet or a bench test writes them: `≤ 0R1`, `>= 1 MΩ`, `< 50 mΩ`, `25..45`, `8µ ±5%`, `OL` (open and
 * nothing else). A single amount has no width and is refused by whoever needs one.
 */
export function parseLimits(text: string, want: Want = {}): Checked<Limits> {
  const bound = /^\s*(≤|<=|<|≥|>=|>|at most|at least|below|above)\s*(.*)$/s.exec(text);
  const amount = parseAmount(bound?.[2] ?? text, { ...want, open: true });
  if (!amount.ok) return amount;
  const { lo, hi } = amount.value;
  if (bound === null) return accept({ lo, hi }, amount.warnings);
  const upper = /^(≤|<|at most|below)/.test(bound[1] ?? "");
  return accept(upper ? { lo: Number.NEGATIVE_INFINITY, hi } : { lo, hi: Number.POSITIVE_INFINITY }, amount.warnings);
}
