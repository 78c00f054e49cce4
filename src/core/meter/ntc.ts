/**
 * How the ohms of an NTC follow its temperature: by the constant B of its plate, by the coefficients of its maker, or by a
 * table of (°C, Ω) from cold to warm.
 */
export type Ntc =
  | { readonly by: "beta"; readonly r25: number; readonly beta: number }
  /** 1/T = a + b ln R + c (ln R)³, T in kelvin. */
  | { readonly by: "three coefficients"; readonly a: number; readonly b: number; readonly c: number }
  /** 1/T = a + b x + c x² + d x³, x = ln(R/R25). */
  | {
      readonly by: "four coefficients";
      readonly r25: number;
      readonly a: number;
      readonly b: number;
      readonly c: number;
      readonly d: number;
    }
  | { readonly by: "table"; readonly rows: readonly (readonly [degrees: number, ohms: number])[] };

const zero = 273.15;
const t25 = 298.15;

/** Temperature in °C at these ohms.
 * @source J. Steinhart, S. Hart, Deep-Sea Research 15 (1968), for the three coefficients */
export function ntcDegrees(ntc: Ntc, ohms: number): number {
  if (ntc.by === "table") return alongTable(ntc.rows, ohms);
  return 1 / inverseKelvin(ntc, ohms) - zero;
}

/** Ohms at this temperature in °C. */
export function ntcOhms(ntc: Ntc, degrees: number): number {
  if (ntc.by === "beta") return ntc.r25 * Math.exp(ntc.beta * (1 / (degrees + zero) - 1 / t25));
  // ohms fall as degrees rise in every form, so halving on their logarithm finds them
  let low = Math.log(1e-3);
  let high = Math.log(1e9);
  for (let i = 0; i < 80; i++) {
    const middle = 0.5 * (low + high);
    if (ntcDegrees(ntc, Math.exp(middle)) > degrees) low = middle;
    else high = middle;
  }
  return Math.exp(0.5 * (low + high));
}

/**
 * Relative standard uncertainty of the ohms that comes from the form itself, beside the part's own tolerance. A curve by B alone
 * is 4 % off at 0 °C and some 1 % between 50 and 100 °C against a table of the same B; coefficients and tables count as exact.
 *
 * @source worked out from a table of R25 10 kΩ, B25/85 3977: +4.1 % at 0 °C, -1.2 % at 50 °C, -1.1 % at 60 °C, +1.1 % at 100 °C
 */
export function ntcModelError(ntc: Ntc, degrees: number): number {
  if (ntc.by !== "beta") return 0;
  const limit = degrees < 25 ? 0.0018 * (25 - degrees) : Math.min(0.013, 0.0013 * (degrees - 25));
  return limit / Math.sqrt(3);
}

function inverseKelvin(ntc: Exclude<Ntc, { by: "table" }>, ohms: number): number {
  if (ntc.by === "beta") return 1 / t25 + Math.log(ohms / ntc.r25) / ntc.beta;
  if (ntc.by === "three coefficients") {
    const log = Math.log(ohms);
    return ntc.a + ntc.b * log + ntc.c * log ** 3;
  }
  const x = Math.log(ohms / ntc.r25);
  return ntc.a + x * (ntc.b + x * (ntc.c + x * ntc.d));
}

/** Between two rows ln R is a straight line over 1/T, as B is constant over a short way; so it is beyond the ends. */
function alongTable(rows: readonly (readonly [number, number])[], ohms: number): number {
  if (rows.length < 2) throw new Error(`a table has two rows or more, got ${rows.length}`);
  let upper = rows.findIndex(([, r]) => r <= ohms);
  if (upper < 0) upper = rows.length - 1;
  upper = Math.max(1, upper);
  const [t1, r1] = rows[upper - 1];
  const [t2, r2] = rows[upper];
  const share = Math.log(ohms / r1) / Math.log(r2 / r1);
  const inverse = 1 / (t1 + zero) + share * (1 / (t2 + zero) - 1 / (t1 + zero));
  return 1 / inverse - zero;
}
