import type { UnitCode } from "../quantity/index.ts";
import type { Quantity } from "./meter.ts";

interface Measured {
  readonly unit: UnitCode;
  /** What a technician calls the amount. */
  readonly says: string;
  /** No path means OL here; elsewhere it means that nothing is read. */
  readonly openIsOverLimit: boolean;
  /** Bare numbers in this range are meant in another prefix than the base unit, so they are asked again. */
  readonly doubtful?: { readonly from: number; readonly to: number; readonly prefix: string };
}

const table: Readonly<Record<Quantity, Measured>> = {
  ohms: { unit: "Ohm", says: "ohms", openIsOverLimit: true },
  // testers show megohms, so 155 on paper is 155 MΩ
  "insulation ohms": {
    unit: "Ohm",
    says: "ohms of insulation",
    openIsOverLimit: true,
    doubtful: { from: 0.001, to: 9999, prefix: "M" },
  },
  volts: { unit: "V", says: "volts", openIsOverLimit: false },
  "volts dc": { unit: "V", says: "volts DC", openIsOverLimit: false },
  amps: { unit: "A", says: "amperes", openIsOverLimit: false },
  "leakage amps": {
    unit: "A",
    says: "amperes of leakage",
    openIsOverLimit: false,
    doubtful: { from: 0.05, to: 999, prefix: "m" },
  },
  watts: { unit: "W", says: "watts", openIsOverLimit: false },
  farads: { unit: "F", says: "farads", openIsOverLimit: false, doubtful: { from: 0.1, to: 999, prefix: "µ" } },
  hertz: { unit: "Hz", says: "hertz", openIsOverLimit: false },
  seconds: { unit: "s", says: "seconds", openIsOverLimit: false },
  "litres per minute": { unit: "L/min", says: "litres per minute", openIsOverLimit: false },
  degrees: { unit: "Cel", says: "degrees Celsius", openIsOverLimit: false },
  millimetres: { unit: "mm", says: "millimetres", openIsOverLimit: false },
  millibar: { unit: "mbar", says: "millibar", openIsOverLimit: false },
  pulses: { unit: "1", says: "pulses", openIsOverLimit: false },
  kelvin: { unit: "K", says: "kelvin", openIsOverLimit: false },
  number: { unit: "1", says: "a number", openIsOverLimit: false },
};

export const quantities = Object.keys(table) as readonly Quantity[];

/** UCUM code of the unit a quantity is kept in. */
export function unitOfQuantity(quantity: Quantity): UnitCode {
  return table[quantity].unit;
}

export function measured(quantity: Quantity): Measured {
  return table[quantity];
}
