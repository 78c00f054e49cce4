import type { Effect } from "../fault/index.ts";
import { effectsOf, type Fault } from "./atom.ts";

/** A fault at one strength: `logRatio` says how far its ohms stand from those written in the part's kind. */
export interface Strength {
  readonly weight: number;
  readonly logRatio: number;
  readonly effects: readonly Effect[];
}

/**
 * Severities are written a decade or so apart ("+ 0R3 5R 50R") and stand for all between: each is looked at at three
 * strengths, a factor 10^(1/3) apart, each spread over its third of the decade (own choice, no source).
 */
export const STRENGTH_STEP = Math.log(10) / 3;
/** Standard deviation of the log of ohms about one strength: a third of a decade, a little smoothed. */
export const STRENGTH_SPREAD = 0.3;

/** The strengths of a single fault with ohms; one, as written, for all others. */
export function strengthsOf(fault: Fault): readonly Strength[] {
  const effects = effectsOf(fault);
  if (fault.length !== 1 || !effects.some(hasOhms)) return [{ weight: 1, logRatio: 0, effects }];
  return [-STRENGTH_STEP, 0, STRENGTH_STEP].map((logRatio) => ({
    weight: 1 / 3,
    logRatio,
    effects: logRatio === 0 ? effects : effects.map((effect) => scaled(effect, Math.exp(logRatio))),
  }));
}

/** Each faulty thing of a pair a step stronger, the others as written: what the reading's spread is taken from. */
export function strongerOf(fault: Fault): readonly (readonly Effect[])[] {
  if (fault.length < 2) return [];
  return fault
    .filter((atom) => effectsOf([atom]).some(hasOhms))
    .map((atom) =>
      fault.flatMap((other) =>
        other === atom
          ? effectsOf([other]).map((effect) => scaled(effect, Math.exp(STRENGTH_STEP)))
          : effectsOf([other]),
      ),
    );
}

function hasOhms(effect: Effect): boolean {
  return effect.does === "series" || effect.does === "parallel" || effect.does === "leak";
}

function scaled(effect: Effect, by: number): Effect {
  return effect.does === "series" || effect.does === "parallel" || effect.does === "leak"
    ? { ...effect, ohms: effect.ohms * by }
    : effect;
}
