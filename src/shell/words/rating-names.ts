import type { Rated, UnitCode } from "../../core/quantity/index.ts";
import { ratingInWords } from "./rating.ts";

/** What a rating is called aloud, and its unit where kinds write the number alone. */
const NAMES: Readonly<Record<string, { readonly says: string; readonly unit?: UnitCode }>> = {
  B: { says: "B of the curve", unit: "K" },
  C: { says: "capacity", unit: "F" },
  P: { says: "power" },
  R25: { says: "at 25 °C", unit: "Ohm" },
  U: { says: "rated volts" },
  X: { says: "capacitor across the lines", unit: "F" },
  Y: { says: "capacitor from each line to earth", unit: "F" },
  bleed: { says: "bleed resistor", unit: "Ohm" },
  brush: { says: "each brush", unit: "Ohm" },
  "bus-farads": { says: "capacitor of the bus", unit: "F" },
  choke: { says: "each winding of the choke", unit: "Ohm" },
  closes: { says: "closes again at", unit: "Cel" },
  coil: { says: "coil", unit: "Ohm" },
  contact: { says: "closed contact", unit: "Ohm" },
  core: { says: "each wire", unit: "Ohm" },
  draw: { says: "what it loads its rail with", unit: "Ohm" },
  driver: { says: "its driver", unit: "Ohm" },
  "core-ohms": { says: "each core", unit: "Ohm" },
  drop: { says: "lets go at, share of the rated volts" },
  "field-x": { says: "winding, when run", unit: "Ohm" },
  "fuse-ohms": { says: "fuse resistor", unit: "Ohm" },
  "hall-mean": { says: "speed sensor, on average", unit: "Ohm" },
  idle: { says: "input without power", unit: "Ohm" },
  mean: { says: "contact, on average while it runs", unit: "Ohm" },
  ohms: { says: "resistance", unit: "Ohm" },
  opens: { says: "opens at", unit: "Cel" },
  pull: { says: "pulls in at, share of the rated volts" },
  "pull-up": { says: "resistor to its rail", unit: "Ohm" },
  ptc: { says: "heating element, cold", unit: "Ohm" },
  "running-x": { says: "winding, while it turns", unit: "Ohm" },
  "sense-ohms": { says: "into its input", unit: "Ohm" },
  standby: { says: "power at rest" },
  "still-x": { says: "winding, held still", unit: "Ohm" },
  trip: { says: "trips at", unit: "A" },
  "turning-x": { says: "winding, while it turns", unit: "Ohm" },
  "v12-volts": { says: "12 V rail" },
  "v5-volts": { says: "5 V rail" },
  "warms-at": { says: "warm from", unit: "A" },
  winding: { says: "each winding", unit: "Ohm" },
  work: { says: "work it does, as a resistor", unit: "Ohm" },
};

/** A rating as a person reads it: "closed contact", "5 mΩ to 15 mΩ". */
export function ratingNamed(name: string, rated: Rated): { readonly name: string; readonly value: string } {
  const known = NAMES[name];
  const unit = rated.unit ?? known?.unit ?? (name.endsWith("-ohms") ? "Ohm" : undefined);
  return {
    name: known?.says ?? name.replaceAll("-", " "),
    value: ratingInWords(unit === undefined ? rated : { ...rated, unit }),
  };
}

/** The same, with the kind's own name for it beside what it is called. */
export function ratingSpoken(
  name: string,
  rated: Rated,
): { readonly name: string; readonly says: string; readonly value: string } {
  const { name: says, value } = ratingNamed(name, rated);
  return { name, says, value };
}
