import { applyFunction, type Estimate, type Rated, standardUncertainty, uncertainty } from "../quantity/index.ts";
import { heatingInput } from "./plate-input.ts";

/** A heat-up as it was timed. Degrees and seconds, kilograms, watts and volts; each with its own spread. */
export interface HeatUp {
  readonly litres: Rated;
  readonly from: Rated;
  readonly to: Rated;
  readonly seconds: Rated;
  /** Of the plate. */
  readonly ratedWatts: number;
  readonly ratedVolts: number;
  /** While it heated; unknown means the whole band of the public supply. */
  readonly mainsVolts?: Rated;
  /** Dry textiles or dishes, and the metal of tub and drum. Without either, what they take is only guessed. */
  readonly loadKilograms?: Rated;
  readonly tubKilograms?: Rated;
}

export interface HeatUpProof {
  /** Average power of the heater, watts. */
  readonly watts: Estimate;
  /** That power by what the plate promises at these mains volts: 1 is as rated. */
  readonly ofRating: Estimate;
  /** Bounds on `ofRating`, 95 % sure together. */
  readonly low: number;
  readonly high: number;
  /** Degrees a minute that a heater as rated would have given. */
  readonly degreesPerMinute: Estimate;
  /** "too close to say": half the heater may be missing, for all that this shows. */
  readonly says: "fits the rating" | "too little" | "too much" | "too close to say";
}

/** Joules to warm a kilogram by a kelvin. From memory; a litre of water is taken as a kilogram (0.4 % off at 30 °C, from memory). */
const WATER = 4186;
/** Cotton and dishes, from memory: 0.8 to 1.4 kJ/(kg·K). */
const LOAD = between(800, 1400);
/** Stainless steel, from memory. */
const STEEL = between(480, 510);
/** Share of the heat that stays in what was weighed: with load and tub the room takes the rest; with water alone they take it too.
 * From memory, an estimate. */
const KEPT = { all: between(0.85, 1), waterOnly: between(0.6, 0.85) };
/** Single-phase public supply, +-10 %: IEC 60038 (read second-hand). */
const MAINS = between(207, 253);

/**
 * Does it heat as strongly as the plate says? Heat taken up by the seconds it took.
 *
 * @throws RangeError where nothing got warmer, or no time passed
 * @source Q = m·c·ΔT; propagation GUM 5.1; the limits of the plate IEC 60335-1, 10.1
 */
export function proveByHeatUp(heat: HeatUp): HeatUpProof {
  const rise = heat.to.nominal - heat.from.nominal;
  if (!(rise > 0 && heat.seconds.nominal > 0)) throw new RangeError("a heat-up that warmed nothing, or took no time");
  const isWaterOnly = heat.loadKilograms === undefined && heat.tubKilograms === undefined;
  const kept = named("kept", isWaterOnly ? KEPT.waterOnly : KEPT.all);
  const capacity = jouleByKelvin(heat);
  const seconds = named("seconds", heat.seconds);
  const mains = named("mains", heat.mainsVolts ?? scaledMains(heat.ratedVolts));

  const power = (capacity.value * rise) / (seconds.value * kept.value);
  const watts = applyFunction(power, [
    [capacity, power / capacity.value],
    [named("from", heat.from), -power / rise],
    [named("to", heat.to), power / rise],
    [seconds, -power / seconds.value],
    [kept, -power / kept.value],
  ]);
  const promised = heat.ratedWatts * (mains.value / heat.ratedVolts) ** 2;
  const ratio = power / promised;
  const ofRating = applyFunction(ratio, [
    [watts, 1 / promised],
    [mains, (-2 * ratio) / mains.value],
  ]);
  const perMinute = (60 * promised * kept.value) / capacity.value;
  const degreesPerMinute = applyFunction(perMinute, [
    [mains, (2 * perMinute) / mains.value],
    [kept, perMinute / kept.value],
    [capacity, -perMinute / capacity.value],
  ]);
  const reach = 1.96 * uncertainty(ofRating);
  const bounds = { low: ratio - reach, high: ratio + reach };
  return { watts, ofRating, ...bounds, degreesPerMinute, says: judge(bounds, heat.ratedWatts) };
}

function judge({ low, high }: { low: number; high: number }, ratedWatts: number): HeatUpProof["says"] {
  const plate = heatingInput(ratedWatts);
  if (high < plate.lo / ratedWatts) return "too little";
  const most = plate.hi / ratedWatts;
  if (low > most) return "too much";
  // One of two equal stages lost, the other at the top of its tolerance.
  return low > most / 2 ? "fits the rating" : "too close to say";
}

/** Heat that all of it takes up for a kelvin. */
function jouleByKelvin({ litres, loadKilograms, tubKilograms }: HeatUp): Estimate {
  const parts: [Estimate, number][] = [[named("litres", litres), WATER]];
  let joules = litres.nominal * WATER;
  const count = (name: string, mass: Rated | undefined, specific: Rated): void => {
    if (mass === undefined) return;
    joules += mass.nominal * specific.nominal;
    parts.push([named(name, mass), specific.nominal], [named(`${name} heat`, specific), mass.nominal]);
  };
  count("load", loadKilograms, LOAD);
  count("tub", tubKilograms, STEEL);
  return applyFunction(joules, parts);
}

function named(name: string, rated: Rated): Estimate {
  return { value: rated.nominal, parts: new Map([[name, standardUncertainty(rated)]]) };
}

function between(lo: number, hi: number): Rated {
  return { nominal: Math.sqrt(lo * hi), lo, hi, spread: "range" };
}

function scaledMains(ratedVolts: number): Rated {
  const by = ratedVolts / 230;
  return between(MAINS.lo * by, MAINS.hi * by);
}
