import { type Meter, type Quantity, rangesOf, standardUncertaintyOf } from "../meter/index.ts";
import { type Pieces, toItsEnd } from "../pace/index.ts";
import type { Atom, Fault } from "./atom.ts";
import type { PredictedTerm } from "./prediction.ts";
import type { Predictor } from "./predictor.ts";
import { stateName } from "./probe.ts";
import type { ProbeClass, UsualProbe } from "./usual-probes.ts";

/** One test as it tells faults apart: what it shows of each fault and of the good machine, and how sure that is. */
export interface Test {
  readonly id: string;
  /** How near to danger it is; "noticed" needs no meter at all. */
  readonly class: ProbeClass | "noticed";
  /** By fault, in the order of the machine's atoms, and of the good machine last; Infinity where nothing is shown. */
  readonly shown: Float64Array;
  /** Standard uncertainty of each, part tolerances and meter together; 0 for answers to a question, given by number. */
  readonly sigma: Float64Array;
}

/** Which tests are allowed. */
export type Regime = "in full" | "nothing opened" | "never live by hand";

const ALLOWED: Readonly<Record<Regime, ReadonlySet<Test["class"]>>> = {
  "in full": new Set(["noticed", "closed", "opened", "clipped", "handheld"]),
  "nothing opened": new Set(["noticed", "closed"]),
  "never live by hand": new Set(["noticed", "closed", "opened", "clipped"]),
};

/** Faults that no allowed test tells apart from one that is detected. */
export interface AmbiguityGroup {
  readonly faults: readonly string[];
  /** How many different things to repair it holds. */
  readonly parts: number;
  /** Share of the faults whose group it is. */
  readonly share: number;
}

/** Standard uncertainties by which two readings must differ to be told apart. */
const APART = 3;
/** Of a quantity for which the meter gives no range (from memory, no source). */
const BY_EYE = 0.05;
const NOTHING = { shown: Number.POSITIVE_INFINITY, sigma: 0 };

export interface Testability {
  readonly regime: Regime;
  readonly tests: number;
  readonly faults: number;
  /** Fraction of faults detected, counted, and weighed by how often they fail. */
  readonly detected: number;
  readonly detectedByShare: number;
  /** Fraction of the modes (weighed by share) that are detected at every severity, not only at some. */
  readonly detectedThroughout: number;
  /** Fraction of the faults detected that are isolated to at most 1, 2, 3 things to repair, counted and weighed by share. */
  readonly isolatedCounted: readonly [number, number, number];
  readonly isolatedTo: readonly [number, number, number];
  /** Mean number of things to repair in the group of a fault detected, counted and weighed by share. */
  readonly meanGroupCounted: number;
  readonly meanGroup: number;
  readonly groups: readonly AmbiguityGroup[];
  /** Faults that no allowed test shows. */
  readonly unseen: readonly string[];
  /** Things to repair of which no allowed test shows anything, by the modes they have. */
  readonly blind: readonly string[];
}

/**
 * Testability of one machine under a regime. A fault is a mode at one severity, its share split by their weights.
 *
 * Two machines are told apart by a test when what it shows differs by more than three of their joint uncertainties, or it
 * shows nothing for one of them. A fault is detected when some allowed test tells it from the good machine; its ambiguity
 * group is all faults that no allowed test tells from it. Groups may overlap: 20 Ω and 26 Ω may be told apart, yet neither
 * from a fault that may show either.
 *
 * @source terms of IEEE 1522 (fraction of faults detected, fraction of faults isolated, ambiguity group); formulas from memory
 */
export function testability(atoms: readonly Atom[], tests: readonly Test[], regime: Regime): Testability {
  return toItsEnd(tellingApart(atoms, tests, regime));
}

/** The same in pieces, one a fault. */
export function* tellingApart(atoms: readonly Atom[], tests: readonly Test[], regime: Regime): Pieces<Testability> {
  const allowed = tests.filter((test) => ALLOWED[regime].has(test.class));
  const good = atoms.length;
  const told = yield* toldApart(allowed, good + 1);
  const unseen = [...atoms.keys()].filter((m) => !told(m, good));
  const missed = new Set(unseen);
  const found = [...atoms.keys()]
    .filter((m) => !missed.has(m))
    .map((m) => {
      const group = [...atoms.keys()].filter((other) => other === m || !told(m, other));
      return { m, group, parts: new Set(group.map((other) => thingOf(atoms[other]))).size };
    });
  const modes = [...new Set(atoms.map(({ mode }) => mode))];
  const partlyMissed = new Set(unseen.map((m) => atoms[m].mode));
  const throughout = modes.filter((mode) => !partlyMissed.has(mode));
  const seenThings = new Set(found.map(({ m }) => thingOf(atoms[m])));
  const counted = isolation(found, () => 1);
  const byShare = isolation(found, ({ m }) => shareOf(atoms[m]));
  return {
    regime,
    tests: allowed.length,
    faults: atoms.length,
    detected: ratio(found.length, atoms.length),
    detectedByShare: ratio(sum(found.map(({ m }) => shareOf(atoms[m]))), sum(atoms.map(shareOf))),
    detectedThroughout: ratio(sum(throughout.map((mode) => mode.share)), sum(modes.map((mode) => mode.share))),
    isolatedCounted: counted.isolated,
    isolatedTo: byShare.isolated,
    meanGroupCounted: counted.mean,
    meanGroup: byShare.mean,
    groups: groupsOf(atoms, found),
    unseen: unseen.map((m) => nameOf(atoms[m])),
    blind: modes.filter((mode) => !seenThings.has(thingOf({ mode }))).map(({ id }) => id),
  };
}

/** A fault detected, and all that cannot be told from it. */
interface Found {
  readonly m: number;
  readonly group: readonly number[];
  /** Different things to repair in the group. */
  readonly parts: number;
}

/** Which two machines some test tells apart; asked once of each two. */
function* toldApart(tests: readonly Test[], machines: number): Pieces<(i: number, j: number) => boolean> {
  const known = new Uint8Array(machines * machines);
  for (let i = 0; i < machines; i++) {
    for (let j = 0; j < i; j++) {
      if (!tests.some((test) => apart(test, i, j))) continue;
      known[i * machines + j] = 1;
      known[j * machines + i] = 1;
    }
    yield;
  }
  return (i, j) => known[i * machines + j] === 1;
}

function apart({ shown, sigma }: Test, i: number, j: number): boolean {
  if (shown[i] === shown[j]) return false;
  if (!Number.isFinite(shown[i]) || !Number.isFinite(shown[j])) return true;
  return Math.abs(shown[i] - shown[j]) > APART * Math.hypot(sigma[i], sigma[j]);
}

/** How far the faults detected are isolated, each weighing what `weight` says. */
function isolation(
  found: readonly Found[],
  weight: (one: Found) => number,
): { readonly isolated: readonly [number, number, number]; readonly mean: number } {
  const whole = sum(found.map(weight));
  const within = (size: number): number => ratio(sum(found.filter(({ parts }) => parts <= size).map(weight)), whole);
  return {
    isolated: [within(1), within(2), within(3)],
    mean: ratio(sum(found.map((one) => weight(one) * one.parts)), whole),
  };
}

/** Each group once, the commonest first. */
function groupsOf(atoms: readonly Atom[], found: readonly Found[]): readonly AmbiguityGroup[] {
  const groups = new Map<string, AmbiguityGroup>();
  for (const { m, group, parts } of found) {
    const key = group.join();
    const share = (groups.get(key)?.share ?? 0) + shareOf(atoms[m]);
    groups.set(key, { faults: group.map((other) => nameOf(atoms[other])), parts, share });
  }
  return [...groups.values()].sort((a, b) => b.share - a.share);
}

function thingOf({ mode }: Pick<Atom, "mode">): string {
  return mode.cause >= 0 ? `cause ${mode.cause}` : `part ${mode.parts.join()}`;
}

function nameOf({ mode, severity }: Atom): string {
  return mode.severities.length === 1 ? mode.id : `${mode.id}, severity ${severity + 1}`;
}

function shareOf({ mode, severity }: Atom): number {
  return mode.share * mode.severities[severity].weight;
}

/** A test in the making; terms by the value read, to the seven digits of a single: no meter shows more. */
interface Made {
  readonly usual: UsualProbe;
  readonly meter: Meter;
  readonly terms: Map<number, PredictedTerm>;
  readonly shown: Float64Array;
  readonly sigma: Float64Array;
}

/**
 * Probes as tests: what their meter shows under each fault at the strength as written. A reading over the meter's top, like
 * an open path, shows nothing.
 *
 * @param meterOf the meter a quantity is read with; probes of others are left out
 */
export function probeTests(
  predictor: Predictor,
  probes: readonly UsualProbe[],
  meterOf: (quantity: Quantity) => Meter | undefined,
): readonly Test[] {
  return toItsEnd(probing(predictor, probes, meterOf));
}

/** The same in pieces, one a fault. */
export function* probing(
  predictor: Predictor,
  probes: readonly UsualProbe[],
  meterOf: (quantity: Quantity) => Meter | undefined,
): Pieces<readonly Test[]> {
  const { atoms } = predictor;
  const made = probes.flatMap((usual): Made[] => {
    const meter = meterOf(usual.probe.quantity);
    if (meter === undefined || !predictor.has(usual.probe)) return [];
    return [{ usual, meter, terms: new Map(), shown: room(atoms), sigma: room(atoms) }];
  });
  // Fault by fault and state by state, so that each is solved once for all its probes.
  made.sort((a, b) => (stateName(a.usual.probe.state) < stateName(b.usual.probe.state) ? -1 : 1));
  // The good machine first, so that what a fault leaves alone has the good machine's spread.
  for (const m of [atoms.length, ...atoms.keys()]) {
    const fault = atoms.slice(m, m + 1);
    for (const one of made) {
      const seen = displayOf(termOf(predictor, one, fault), one.meter, one.usual.probe.quantity);
      one.shown[m] = seen.shown;
      one.sigma[m] = seen.sigma;
    }
    yield;
  }
  return made.map(({ usual, shown, sigma }) => ({ id: usual.probe.id, class: usual.class, shown, sigma }));
}

function room(atoms: readonly Atom[]): Float64Array {
  return new Float64Array(atoms.length + 1);
}

/** The term of an equal reading where there is one, since a spread costs far more than a value. */
function termOf(predictor: Predictor, { usual, meter, terms }: Made, fault: Fault): PredictedTerm {
  const value = Math.fround(predictor.value(usual.probe, meter.inputOhms, fault));
  let term = terms.get(value);
  if (term === undefined) {
    term = predictor.asWritten(usual.probe, meter.inputOhms, fault);
    terms.set(value, term);
  }
  return term;
}

function displayOf(term: PredictedTerm, meter: Meter, quantity: Quantity): { shown: number; sigma: number } {
  if (term.kind === "open") return NOTHING;
  const { mean } = term;
  const ranges = rangesOf(meter, quantity);
  const range = ranges.find(({ top }) => Math.abs(mean) <= top);
  if (range === undefined && ranges.length > 0) return NOTHING;
  const own = range === undefined ? BY_EYE * Math.abs(mean) : standardUncertaintyOf(range, mean);
  return { shown: mean, sigma: Math.hypot(term.sigma, own, range?.resolution ?? 0) };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function ratio(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
