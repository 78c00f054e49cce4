import type { Effect } from "../fault/index.ts";
import { type Atom, effectsOf, type Fault } from "./atom.ts";

/** A fault at one strength: `logRatio` says how far its ohms or its factor stand from those written in the part's kind. */
export interface Strength {
  readonly weight: number;
  readonly logRatio: number;
  readonly effects: readonly Effect[];
}

/**
 * Severities are written a decade or so apart ("+ 0R3 5R 50R") and stand for all between: each is looked at at three
 * strengths, a factor 10^(1/3) apart, each spread over its third of the decade (own choice, no source). Factors ("x 0.1
 * 0.3") are looked at in thirds of the way to their neighbours.
 */
const STRENGTH_STEP = Math.log(10) / 3;
/** Standard deviation about one strength, in steps: its own third, a little smoothed. */
export const STRENGTH_SPREAD = 0.39;

const known = new WeakMap<Atom, readonly Strength[]>();

/**
 * The strengths of a single fault with ohms or with several factors; one, as written, for all others. Of one fault always
 * the same: what was solved for one of its strengths is found again.
 */
export function strengthsOf(fault: Fault): readonly Strength[] {
  if (fault.length !== 1) return [{ weight: 1, logRatio: 0, effects: effectsOf(fault) }];
  const [atom] = fault;
  const strengths = known.get(atom) ?? strengthsOfOne(atom);
  known.set(atom, strengths);
  return strengths;
}

function strengthsOfOne(atom: Atom): readonly Strength[] {
  const effects = effectsOf([atom]);
  const inOhms = effects.some(hasOhms);
  const scaled = inOhms ? scaledOhms : scaledFactor;
  const step = inOhms ? STRENGTH_STEP : factorGap(atom) / 3;
  if (step === 0) return [{ weight: 1, logRatio: 0, effects }];
  return [-step, 0, step].map((logRatio) => ({
    weight: 1 / 3,
    logRatio,
    effects: logRatio === 0 ? effects : effects.map((effect) => scaled(effect, Math.exp(logRatio))),
  }));
}

/** How far the factor of this severity stands from its neighbours' on average, as a log; 0 where it stands alone. */
function factorGap({ mode, severity }: Atom): number {
  const own = factorOf(mode.severities[severity].effects);
  if (own === undefined) return 0;
  const others = mode.severities.map(({ effects }) => Math.log((factorOf(effects) ?? own) / own));
  const beside = [
    Math.min(...others.filter((gap) => gap > 0)),
    Math.min(...others.flatMap((gap) => (gap < 0 ? [-gap] : []))),
  ].filter(Number.isFinite);
  return beside.length === 0 ? 0 : beside.reduce((sum, gap) => sum + gap, 0) / beside.length;
}

function factorOf(effects: readonly Effect[]): number | undefined {
  const by = effects.find(({ does }) => does === "factor");
  return by?.does === "factor" && by.by > 0 ? by.by : undefined;
}

/** Each faulty thing of a pair a step stronger, the others as written: what the reading's spread is taken from. */
export function strongerOf(fault: Fault): readonly (readonly Effect[])[] {
  if (fault.length < 2) return [];
  return fault
    .filter((atom) => effectsOf([atom]).some(hasOhms))
    .map((atom) =>
      fault.flatMap((other) =>
        other === atom
          ? effectsOf([other]).map((effect) => scaledOhms(effect, Math.exp(STRENGTH_STEP)))
          : effectsOf([other]),
      ),
    );
}

function hasOhms(effect: Effect): boolean {
  return effect.does === "series" || effect.does === "parallel" || effect.does === "leak";
}

function scaledFactor(effect: Effect, by: number): Effect {
  return effect.does === "factor" ? { ...effect, by: effect.by * by } : effect;
}

function scaledOhms(effect: Effect, by: number): Effect {
  return effect.does === "series" || effect.does === "parallel" || effect.does === "leak"
    ? { ...effect, ohms: effect.ohms * by }
    : effect;
}
