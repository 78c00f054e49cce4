import type { Limits } from "../quantity/index.ts";

/**
 * Watts that an appliance with this plate may take at rated volts, heating or combined.
 *
 * @source IEC 60335-1, clause 10.1, Table 1 (read in GOST R IEC 335-1-94, authentic to it): up to 25 W +20 %; to 200 W ±10 %;
 *         above +5 % or +20 W, the greater, and −10 %. No lower limit is set up to 25 W.
 */
export function heatingInput(watts: number): Limits {
  if (watts <= 25) return { lo: 0, hi: 1.2 * watts };
  if (watts <= 200) return { lo: 0.9 * watts, hi: 1.1 * watts };
  return { lo: 0.9 * watts, hi: Math.max(1.05 * watts, watts + 20) };
}
