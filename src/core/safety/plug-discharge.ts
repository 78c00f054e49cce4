/** What is left between the pins of a pulled plug. */
export interface PlugDischarge {
  /** One second after it was pulled, at worst (pulled at the peak of the mains). */
  readonly volts: number;
  readonly isWithin: boolean;
}

/**
 * Volts on the plug's pins a second after it is pulled, worked out from filter capacitor and bleed; it replaces no measurement.
 *
 * @source IEC 60335-1, 22.5 (read second-hand): at most 34 V after 1 s, asked above 0.1 µF
 */
export function plugDischarge(farads: number, ohms: number, mainsVolts: number): PlugDischarge {
  const volts = Math.SQRT2 * mainsVolts * Math.exp(-1 / (ohms * farads));
  return { volts, isWithin: farads <= 0.1e-6 || volts <= 34 };
}
