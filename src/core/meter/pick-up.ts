import type { Quantity } from "./meter.ts";

/** What leads pick up: how often, and how far it spreads a reading then, base units. */
export interface PickUp {
  readonly often: number;
  readonly sigma: number;
}

const VOLTS: PickUp = { often: 0.2, sigma: 0.3 };

/** Leads beside live wires pick up some tenths of a volt of the mains; nothing else does (from memory). */
export function pickUpOf(quantity: Quantity): PickUp | undefined {
  return quantity === "volts" ? VOLTS : undefined;
}
