import type { Machine } from "../sheet/index.ts";

/** Below this a charge does no harm to a hand (IEC 60335-1, 22.5: 34 V; from memory). */
const SAFE_VOLTS = 34;
/** A run capacitor stands at up to its rated voltage, above the mains (common practice, no source). */
const RUN_VOLTS = 450;
/** Discharge tools: insulated clip resistors of 5 W and, for a module, 10 W (common practice, no source). */
const CLIP_OHMS = { filter: 10_000, run: 10_000, bus: 2_200 } as const;
/** A capacitor of less than this holds no more than a sting. */
const RUN_FARADS = 0.9e-6;
const LEAST_FARADS = 20e-9;

/** Between the poles of the mains; at a motor, swinging above the mains; behind a rectifier, at its crest. */
export type Store = keyof typeof CLIP_OHMS;

/** Charge that a capacitor may still hold when the plug is out. */
export interface StoredEnergy {
  readonly store: Store;
  readonly part: string;
  readonly says: string;
  readonly farads: number;
  readonly volts: number;
  readonly joules: number;
  /** Seconds to a safe voltage through its own bleed resistor; absent where it has none. */
  readonly bleedSeconds?: number;
  /** The clip resistor to discharge it with. */
  readonly clipOhms: number;
  /** Seconds to a safe voltage through the clip resistor. */
  readonly clipSeconds: number;
}

/**
 * Charges that a hand may meet at these places.
 *
 * @param access  access groups that the step reaches into; capacitors behind them count
 * @param plug    the step touches the pins of the mains plug: filter capacitors count too
 * @returns       the heaviest first
 * @source        W = C V²/2 and V(t) = V exp(−t/RC): textbook
 */
export function storedEnergy(machine: Machine, access: ReadonlySet<string>, plug: boolean): StoredEnergy[] {
  const found: StoredEnergy[] = [];
  for (const element of machine.elements) {
    if (element.what !== "C") continue;
    const part = machine.parts[element.part];
    const farads = element.values[0]?.nominal ?? 0;
    if (part === undefined || farads < LEAST_FARADS) continue;
    const rectified = machine.elements.find((other) => other.what === "V=" && other.part === element.part);
    // A rail that is safe to touch holds nothing to speak of.
    if (rectified !== undefined && (rectified.values[0]?.nominal ?? 0) <= SAFE_VOLTS) continue;
    const store: Store = rectified !== undefined ? "bus" : farads >= RUN_FARADS ? "run" : "filter";
    if (!(part.access !== undefined && access.has(part.access)) && !(plug && store === "filter")) continue;
    const volts = store === "run" ? RUN_VOLTS : machine.supply.volts * Math.SQRT2;
    const fall = Math.log(volts / SAFE_VOLTS);
    const bleed = machine.elements.find(
      (other) =>
        other.what === "R" &&
        other.part === element.part &&
        ((other.a === element.a && other.b === element.b) || (other.a === element.b && other.b === element.a)),
    );
    const ohms = bleed?.values[0]?.nominal ?? 0;
    const clipOhms = CLIP_OHMS[store];
    found.push({
      store,
      part: part.id,
      says: part.says,
      farads,
      volts,
      joules: (farads * volts * volts) / 2,
      ...(ohms > 0 ? { bleedSeconds: ohms * farads * fall } : {}),
      clipOhms,
      clipSeconds: clipOhms * farads * fall,
    });
  }
  return found.sort((a, b) => b.joules - a.joules || (a.part < b.part ? -1 : 1));
}
