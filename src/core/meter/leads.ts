import type { Leads, Meter, Quantity } from "./meter.ts";

/** Ohms that the leads add to a reading, and how far that is uncertain (standard deviation). Nothing but ohms feels them. */
export function leadsOf(meter: Meter, quantity: Quantity, leads: Leads): { readonly ohms: number; readonly u: number } {
  if (quantity !== "ohms" && quantity !== "insulation ohms") return { ohms: 0, u: 0 };
  const left = meter.nulledOhms / Math.sqrt(3);
  if (leads === "nulled") return { ohms: 0, u: left };
  if (leads !== "not nulled") return { ohms: leads.ohms, u: left };
  const { lo, hi } = meter.leadOhms;
  return { ohms: (lo + hi) / 2, u: Math.hypot((hi - lo) / Math.sqrt(12), left) };
}
