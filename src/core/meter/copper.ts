/**
 * Temperature at which the resistance of a straight-line metal would vanish, below 0 °C.
 *
 * @source IEC 60335-1 clause 11 (winding rise): 234.5 copper, 225 aluminium; 1/0.00393 − 20 from IEC 60028
 */
const vanishesBelowZero = { copper: 234.5, aluminium: 225 };

type Metal = keyof typeof vanishesBelowZero;

/** Factor by which a winding's ohms rise from one temperature (°C) to another. */
export function windingFactor(fromDegrees: number, toDegrees: number, metal: Metal = "copper"): number {
  const k = vanishesBelowZero[metal];
  return (k + toDegrees) / (k + fromDegrees);
}

/** Ohms that a winding or coil, read at `degrees`, has at 20 °C. */
export function ohmsAt20(ohms: number, degrees: number, metal: Metal = "copper"): number {
  return ohms * windingFactor(degrees, 20, metal);
}

/**
 * Rise of a winding's temperature, in kelvin, from its ohms cold and hot; `coolant` are the room's degrees at both times.
 *
 * @source IEC 60335-1 clause 11: Δt = (R2 − R1)/R1 · (k + t1) − (t2 − t1)
 */
export function windingRise(
  cold: { readonly ohms: number; readonly roomDegrees: number },
  hot: { readonly ohms: number; readonly roomDegrees: number },
  metal: Metal = "copper",
): number {
  const k = vanishesBelowZero[metal];
  return ((hot.ohms - cold.ohms) / cold.ohms) * (k + cold.roomDegrees) - (hot.roomDegrees - cold.roomDegrees);
}
