/** Coefficients of the platinum curve; the last holds below 0 °C only.
 * @source IEC 60751 */
const a = 3.9083e-3;
const b = -5.775e-7;
const c = -4.183e-12;

/** Ohms of a Pt100 at this temperature, -200 to 850 °C. */
export function pt100Ohms(degrees: number): number {
  const below = degrees < 0 ? c * (degrees - 100) * degrees ** 3 : 0;
  return 100 * (1 + a * degrees + b * degrees * degrees + below);
}

/** Temperature in °C of a Pt100 of these ohms. */
export function pt100Degrees(ohms: number): number {
  const warm = (-a + Math.sqrt(a * a - 4 * b * (1 - ohms / 100))) / (2 * b);
  if (warm >= 0) return warm;
  let degrees = warm;
  for (let i = 0; i < 20; i++) {
    const slope = 100 * (a + 2 * b * degrees + c * (4 * degrees ** 3 - 300 * degrees ** 2));
    degrees -= (pt100Ohms(degrees) - ohms) / slope;
  }
  return degrees;
}

const classes = { AA: [0.1, 0.0017], A: [0.15, 0.002], B: [0.3, 0.005], C: [0.6, 0.01] } as const;

/** Permitted deviation of a class, in kelvin, at this temperature.
 * @source IEC 60751:2008 */
export function pt100Tolerance(grade: keyof typeof classes, degrees: number): number {
  const [base, share] = classes[grade];
  return base + share * Math.abs(degrees);
}
