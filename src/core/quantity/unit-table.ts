import type { Unit, UnitCode } from "./unit.ts";

const may = { fallBelowZero: true };

/** Prefixes small to large, parted by blanks; 1 is no prefix. */
function unit(
  code: UnitCode,
  dimension: string,
  factor: number,
  symbol: string,
  says: string,
  prefixes: string,
  written: readonly string[],
  { fallBelowZero } = { fallBelowZero: false },
): Unit {
  const list = prefixes.split(" ").map((prefix) => (prefix === "1" ? "" : prefix));
  return { code, dimension, factor, symbol, says, prefixes: list, written, signed: fallBelowZero };
}

/** Every unit that sheets, jobs and meters may be written in. */
export const units: readonly Unit[] = [
  unit("Ohm", "resistance", 1, "Ω", "ohms", "m 1 k M G T", ["Ω", "Ω", "ohm", "ohms", "R"]),
  unit("V", "voltage", 1, "V", "volts", "µ m 1 k", ["V", "volt", "volts"], may),
  unit("A", "current", 1, "A", "amperes", "µ m 1", ["A", "amp", "amps"], may),
  unit("W", "power", 1, "W", "watts", "m 1 k", ["W", "watt", "watts"], may),
  unit("VA", "apparent power", 1, "VA", "volt-amperes", "1 k", ["VA"]),
  unit("F", "capacitance", 1, "F", "farads", "p n µ", ["F", "farad", "farads"]),
  unit("H", "inductance", 1, "H", "henries", "µ m 1", ["H", "henry"]),
  unit("Hz", "frequency", 1, "Hz", "hertz", "1 k M", ["Hz"]),
  unit("s", "time", 1, "s", "seconds", "m 1", ["s", "sec", "second", "seconds"]),
  unit("min", "time", 60, "min", "minutes", "1", ["min", "mins", "minute", "minutes"]),
  unit("h", "time", 3600, "h", "hours", "1", ["h", "hr", "hour", "hours"]),
  unit("Cel", "temperature", 1, "°C", "degrees Celsius", "1", ["°C", "℃", "C", "Cel", "degC", "degrees", "°"], may),
  unit("K", "temperature difference", 1, "K", "kelvin", "1", ["K", "kelvin"], may),
  unit("L", "volume", 1, "L", "litres", "m 1", ["L", "litre", "litres"]),
  unit("L/min", "flow", 1, "L/min", "litres per minute", "1", ["L/min", "lpm", "litres per minute", "litres/minute"]),
  unit("mm", "length", 1, "mm", "millimetres", "1", ["mm", "millimetre", "millimetres"], may),
  unit("cm", "length", 10, "cm", "centimetres", "1", ["cm"], may),
  unit("m", "length", 1000, "m", "metres", "1", ["metre", "metres"], may),
  unit("mbar", "pressure", 1, "mbar", "millibar", "1", ["mbar", "hPa", "millibar"], may),
  unit("bar", "pressure", 1000, "bar", "bar", "1", ["bar"], may),
  unit("Pa", "pressure", 0.01, "Pa", "pascals", "1 k", ["Pa"], may),
  unit("J", "energy", 1, "J", "joules", "µ m 1 k M", ["J"]),
  unit("W.h", "energy", 3600, "Wh", "watt hours", "1 k", ["Wh", "W.h"]),
  unit("N.m", "torque", 1, "N·m", "newton metres", "m 1", ["Nm", "N.m", "N·m"], may),
  unit("kg", "mass", 1, "kg", "kilograms", "1", ["kg"]),
  unit("g", "mass", 0.001, "g", "grams", "1", ["g"]),
  unit("/min", "speed of rotation", 1, "/min", "turns a minute", "1", ["/min", "rpm", "1/min"]),
  unit("1", "number", 1, "", "a plain number", "1", ["x", "times"], may),
  unit("%", "number", 0.01, "%", "per cent", "1", ["%", "per cent", "percent"], may),
];
