import { type Meter, type Quantity, rangesOf, standardUncertaintyOf } from "../meter/index.ts";
import type { Atom } from "./atom.ts";
import type { PredictedTerm } from "./prediction.ts";
import type { Predictor } from "./predictor.ts";
import { stateName } from "./probe.ts";
import type { ProbeClass, UsualProbe } from "./usual-probes.ts";

/** One test seen by what it tells apart: a label for each fault (a mode at one severity), and one for the good machine. */
export interface Test {
  readonly id: string;
  /** How near to danger it is; "noticed" needs no meter at all. */
  readonly class: ProbeClass | "noticed";
  /** By fault, in the order of the machine's atoms; equal labels cannot be told apart by it. */
  readonly labels: Int32Array;
  readonly good: number;
}

/** Which tests are allowed. */
export type Regime = "in full" | "nothing opened" | "never live by hand";

const ALLOWED: Readonly<Record<Regime, ReadonlySet<Test["class"]>>> = {
  "in full": new Set(["noticed", "closed", "opened", "clipped", "handheld"]),
  "nothing opened": new Set(["noticed", "closed"]),
  "never live by hand": new Set(["noticed", "closed", "opened", "clipped"]),
};

/** Faults that no allowed test tells apart. */
export interface AmbiguityGroup {
  readonly faults: readonly string[];
  /** How many different things to repair it holds. */
  readonly parts: number;
  readonly share: number;
}

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
}

/**
 * Testability of one machine under a regime. A fault is a mode at one severity, its share split by their weights.
 *
 * It is detected when some allowed test gives it another label than the good machine's; two faults are in one ambiguity
 * group when every allowed test gives both the same label.
 *
 * @source terms of IEEE 1522 (fraction of faults detected, fraction of faults isolated, ambiguity group); formulas from memory
 */
export function testability(atoms: readonly Atom[], tests: readonly Test[], regime: Regime): Testability {
  const allowed = tests.filter((test) => ALLOWED[regime].has(test.class));
  const groups = new Map<string, number[]>();
  const unseen: number[] = [];
  for (const m of atoms.keys()) {
    if (allowed.every(({ labels, good }) => labels[m] === good)) unseen.push(m);
    else {
      const signature = allowed.map(({ labels }) => labels[m]).join();
      groups.set(signature, [...(groups.get(signature) ?? []), m]);
    }
  }
  const found = [...groups.values()].map((members) => groupOf(atoms, members));
  const share = sum(atoms.map(shareOf));
  const missed = new Set(unseen.map((m) => atoms[m].mode));
  const modes = [...new Set(atoms.map(({ mode }) => mode))];
  const throughout = modes.filter((mode) => !missed.has(mode));
  const counted = spreadOf(found, ({ faults }) => faults.length);
  const byShare = spreadOf(found, (group) => group.share);
  return {
    regime,
    tests: allowed.length,
    faults: atoms.length,
    detected: ratio(atoms.length - unseen.length, atoms.length),
    detectedByShare: ratio(sum(found.map((group) => group.share)), share),
    detectedThroughout: ratio(sum(throughout.map((mode) => mode.share)), sum(modes.map((mode) => mode.share))),
    isolatedCounted: counted.isolated,
    isolatedTo: byShare.isolated,
    meanGroupCounted: counted.mean,
    meanGroup: byShare.mean,
    groups: found.sort((a, b) => b.share - a.share),
    unseen: unseen.map((m) => nameOf(atoms[m])),
  };
}

/** How far the faults detected are isolated, each group weighing what `weight` says. */
function spreadOf(
  groups: readonly AmbiguityGroup[],
  weight: (group: AmbiguityGroup) => number,
): { readonly isolated: readonly [number, number, number]; readonly mean: number } {
  const whole = sum(groups.map(weight));
  const within = (size: number): number => ratio(sum(groups.filter(({ parts }) => parts <= size).map(weight)), whole);
  return {
    isolated: [within(1), within(2), within(3)],
    mean: ratio(sum(groups.map((group) => weight(group) * group.parts)), whole),
  };
}

function groupOf(atoms: readonly Atom[], members: readonly number[]): AmbiguityGroup {
  const own = members.map((m) => atoms[m]);
  return {
    faults: own.map(nameOf),
    parts: new Set(own.map(({ mode }) => (mode.cause >= 0 ? `cause ${mode.cause}` : `part ${mode.parts.join()}`))).size,
    share: sum(own.map(shareOf)),
  };
}

function nameOf({ mode, severity }: Atom): string {
  return mode.severities.length === 1 ? mode.id : `${mode.id}, severity ${severity + 1}`;
}

function shareOf({ mode, severity }: Atom): number {
  return mode.share * mode.severities[severity].weight;
}

/**
 * Labels of probes under each fault: readings nearer than two of their joint sigmas, the
 * meter's own error among them, are one.
 *
 * @param meterOf the meter a quantity is read with; probes of others are left out
 */
export function probeTests(
  predictor: Predictor,
  probes: readonly UsualProbe[],
  meterOf: (quantity: Quantity) => Meter | undefined,
): readonly Test[] {
  const usable = probes.flatMap((usual) => {
    const meter = meterOf(usual.probe.quantity);
    return meter === undefined || !predictor.has(usual.probe) ? [] : [{ usual, meter }];
  });
  // Fault by fault and state by state, so that each is solved once for all its probes.
  usable.sort((a, b) => (stateName(a.usual.probe.state) < stateName(b.usual.probe.state) ? -1 : 1));
  const shown = [...predictor.atoms.map((atom) => [atom]), []].map((fault) =>
    usable.map(({ usual, meter }) => predictor.asWritten(usual.probe, meter.inputOhms, fault)),
  );
  return usable.map(({ usual, meter }, t) => {
    const labels = labelsOf(
      shown.map((row) => row[t]),
      meter,
      usual.probe.quantity,
    );
    return {
      id: usual.probe.id,
      class: usual.class,
      labels: labels.slice(0, predictor.atoms.length),
      good: labels[predictor.atoms.length],
    };
  });
}

/** Numbers the readings from low to high, the next number wherever a gap can be told; an open path is −1. */
function labelsOf(shown: readonly PredictedTerm[], meter: Meter, quantity: Quantity): Int32Array {
  const labels = new Int32Array(shown.length).fill(-1);
  const values = shown.flatMap((term, i) => {
    if (term.kind === "open") return [];
    const { mean } = term;
    const range = rangesOf(meter, quantity).find(({ top }) => Math.abs(mean) <= top);
    if (range === undefined && rangesOf(meter, quantity).length > 0) return [];
    const own = range === undefined ? 0.05 * mean : standardUncertaintyOf(range, mean);
    return [{ i, mean, sigma: Math.hypot(term.sigma, own, range?.resolution ?? 0) }];
  });
  values.sort((a, b) => a.mean - b.mean);
  let label = 0;
  for (const [k, { i, mean, sigma }] of values.entries()) {
    const before = values[k - 1];
    if (before !== undefined && mean - before.mean > 2 * (sigma + before.sigma)) label += 1;
    labels[i] = label;
  }
  return labels;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function ratio(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
