import type { Meter, Quantity } from "../meter/index.ts";

/** Share of its value by which a quantity read by eye, watch or hand may be off (from memory, no source). */
const BY_HAND_SHARE = 0.1;

/**
 * The instrument one would reach for to read a quantity: the first in the bag that has it, else any that has it, else
 * what hands, eyes and a watch can tell.
 */
export function instrumentFor(quantity: Quantity, bag: readonly string[], meters: ReadonlyMap<string, Meter>): Meter {
  const has = (meter: Meter | undefined): meter is Meter =>
    meter?.ranges.some((range) => range.quantity === quantity) ?? false;
  return bag.map((id) => meters.get(id)).find(has) ?? [...meters.values()].find(has) ?? byHand(quantity);
}

/** What is taken in hand, with the function it is set to: "multimeter, 6000 counts, capacitance". */
export function instrumentWords(meter: Meter, quantity: Quantity): string {
  return `${meter.says}, ${FUNCTIONS[quantity] ?? quantity}`;
}

/** What a dial calls a function, where that is not the quantity's own name. */
const FUNCTIONS: Partial<Record<Quantity, string>> = { farads: "capacitance", "insulation ohms": "insulation" };

function byHand(quantity: Quantity): Meter {
  return {
    id: "by hand",
    says: "by eye, hand and watch",
    ranges: [{ quantity, top: 1e12, resolution: 1e-9, shareOfReading: BY_HAND_SHARE, counts: 0 }],
    inputOhms: 1e7,
    leadOhms: { lo: 0, hi: 0 },
    nulledOhms: 0,
    source: "from memory",
  };
}
