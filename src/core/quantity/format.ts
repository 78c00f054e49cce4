import { prefixExponent, type UnitCode, unitOf } from "./unit.ts";

/**
 * An amount as a person reads it: three significant figures, the SI prefix that keeps 1 to 999 before it, a fraction of
 * nothing but zeros left out. Infinity is `OL`.
 *
 * @example formatAmount(26.5, "Ohm") // "26.5 Ω"
 * @example formatAmount(3300, "Ohm") // "3.30 kΩ"
 */
export function formatAmount(value: number, code: UnitCode, digits = 3): string {
  if (Number.isNaN(value)) return "?";
  if (!Number.isFinite(value)) return value > 0 ? "OL" : "-OL";
  const unit = unitOf(code);
  const [mantissa, prefix] = engineering(value, unit.prefixes, digits);
  if (unit.symbol === "") return mantissa;
  return unit.symbol === "%" ? `${mantissa} %` : `${mantissa} ${prefix}${unit.symbol}`;
}

/**
 * An amount of ohms in the code of resistor marking: `3k3`, `26R5`, `0R1`, `2M2`.
 *
 * @source IEC 60062: letter in place of the decimal point
 */
export function formatCode(ohms: number, digits = 3): string {
  if (!Number.isFinite(ohms)) return "OL";
  const [mantissa, prefix] = engineering(ohms, ["", "k", "M", "G", "T"], digits);
  const letter = prefix === "" ? "R" : prefix;
  const [whole = "0", part = ""] = mantissa.split(".");
  return `${whole}${letter}${part.replace(/0+$/, "")}`;
}

/** Mantissa and prefix; rounding first, so that 999.6 becomes 1 k and not 1000. */
function engineering(value: number, prefixes: readonly string[], digits: number): readonly [string, string] {
  if (value === 0) return ["0", ""];
  const [significant = "0", exponentText = "0"] = Math.abs(value)
    .toExponential(digits - 1)
    .split("e");
  const exponent = Number(exponentText);
  const sign = value < 0 ? "-" : "";
  let prefix = prefixes[0] ?? "";
  for (const candidate of prefixes) if ((prefixExponent.get(candidate) ?? 0) <= exponent) prefix = candidate;
  const point = exponent - (prefixExponent.get(prefix) ?? 0);
  return [sign + placePoint(significant.replace(".", ""), point), prefix];
}

/** Digits `d1d2d3` with the point after the digit number `after` (0 = after the first). */
function placePoint(figures: string, after: number): string {
  if (after < 0) return `0.${"0".repeat(-after - 1)}${figures}`.replace(/\.?0+$/, "");
  const whole = figures.slice(0, after + 1).padEnd(after + 1, "0");
  const part = figures.slice(after + 1);
  return /^0*$/.test(part) ? whole : `${whole}.${part}`;
}
