import type { Quantity } from "./meter.ts";

const UNIT_QUANTITIES: ReadonlyMap<string, Quantity> = new Map<string, Quantity>([
  ["Ohm", "ohms"],
  ["V", "volts"],
  ["A", "amps"],
  ["W", "watts"],
  ["F", "farads"],
  ["Hz", "hertz"],
  ["s", "seconds"],
  ["min", "seconds"],
  ["L/min", "litres per minute"],
  ["Cel", "degrees"],
  ["K", "kelvin"],
  ["mm", "millimetres"],
  ["mbar", "millibar"],
]);

/** What is measured, from the unit a sheet gives it in; a bare number where no instrument reads that unit. */
export function quantityOf(unit: string): Quantity {
  return UNIT_QUANTITIES.get(unit) ?? "number";
}
