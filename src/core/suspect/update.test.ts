import { describe, expect, it } from "vitest";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import { LEAST_CHANCE } from "./hypothesis-chance.ts";
import type { Entry } from "./prior.ts";
import { beliefOf, rollOf } from "./update.ts";

/**
 * The polybox: A=3 B=2 C=2 D=3 E=3; M1 X=AC, M2 Y=BD, M3 Z=CE, A1 F=X+Y, A2 G=Y+Z; seen F=10, G=12. Each component fails
 * with 0.01, and a value that nothing forces has one chance in 16.
 *
 * @source the circuit and its minimal diagnoses: de Kleer & Williams, "Diagnosing multiple faults", Artificial
 * Intelligence 32 (1987), example from memory; the odds worked out again by enumeration with this probability model
 */
describe("the polybox of the diagnosis papers", () => {
  const names = ["M1", "M2", "M3", "A1", "A2"];
  const [M1, M2, M3, A1, A2] = [1, 2, 4, 8, 16];
  const P = 0.01;
  const modes = names.map((name, i) => plainMode(i, name));
  const foresight = tableForesight({ modes });
  const entries: Entry[] = Array.from({ length: 32 }, (_, set) => {
    const atoms = foresight.atoms.filter((_, i) => set & (1 << i));
    return {
      id: String(set),
      kind: set === 0 ? "nothing wrong" : atoms.length === 1 ? "single" : "pair",
      candidate: 0,
      modes: atoms.map((atom) => atom.mode),
      severities: atoms.map(() => 0),
      failsOn: 1,
      atoms,
      logPrior: atoms.length * Math.log(P) + (5 - atoms.length) * Math.log(1 - P),
    };
  });

  const ok = (set: number, ...components: readonly number[]): boolean => components.every((c) => (set & c) === 0);

  /** Values that X, Y and Z may have when F=10, G=12 are seen; "free" where nothing forces one. */
  function values(set: number): { x: number | "free" } | "impossible" {
    let y: number | "free" = ok(set, M2) ? 6 : "free";
    let x: number | "free" = ok(set, M1) ? 6 : "free";
    const z: number | "free" = ok(set, M3) ? 6 : "free";
    if (y === "free" && x !== "free" && ok(set, A1)) y = 10 - x;
    if (y === "free" && z !== "free" && ok(set, A2)) y = 12 - z;
    if (x === "free" && y !== "free" && ok(set, A1)) x = 10 - y;
    if (ok(set, A1) && x !== "free" && y !== "free" && x + y !== 10) return "impossible";
    if (ok(set, A2) && y !== "free" && z !== "free" && y + z !== 12) return "impossible";
    return { x };
  }

  /** Chance of F=10, G=12 (and of X, if probed): 1/16 for each value that nothing forces. */
  function chance(set: number, probedX?: number): number {
    const found = values(set);
    if (found === "impossible") return 0;
    const fForced = ok(set, M1, M2, A1);
    const gForced = (ok(set, M2) || ok(set, M1, A1)) && ok(set, M3, A2);
    const seen = (fForced ? 1 : 1 / 16) * (gForced ? 1 : 1 / 16);
    if (probedX === undefined) return seen;
    return seen * (found.x === "free" ? 1 / 16 : Number(found.x === probedX));
  }

  const weighing = (index: number, of: (set: number) => number) => {
    const chance = Float64Array.from(entries, (_, set) => Math.max(of(set), LEAST_CHANCE));
    const numbers = Int32Array.from(entries.keys());
    return {
      index,
      numbers,
      chance,
      logChance: chance.map(Math.log),
      logSlip: Number.NEGATIVE_INFINITY,
      logAnything: 0,
    };
  };
  const roll = rollOf(entries, [{ machine: foresight.machine, modes, weight: 1 }]);
  const belief = beliefOf(roll, [weighing(0, (set) => chance(set))]);
  const entropy = (logs: Float64Array): number =>
    logs.reduce((sum, log) => (Number.isFinite(log) ? sum - (Math.exp(log) * log) / Math.LN2 : sum), 0);

  it("gives M1 alone and A1 alone 0.496224819 each, and 0.502196125 with all that contains them", () => {
    expect(Math.exp(belief.logPosterior[M1])).toBeCloseTo(0.496224819, 9);
    expect(Math.exp(belief.logPosterior[A1])).toBeCloseTo(0.496224819, 9);
    expect(belief.modes.slice(0, 2).map(({ part }) => part)).toEqual(["A1", "M1"]);
    expect(belief.modes[0].p).toBeCloseTo(0.502196125, 9);
  });

  it("leaves 1.07135 bits, and 0.03834 after a look at X", () => {
    expect(entropy(belief.logPosterior)).toBeCloseTo(1.07135, 5);
    let expected = 0;
    for (let x = 0; x < 16; x++) {
      const after = beliefOf(roll, [weighing(0, (set) => chance(set, x))]);
      if (!Number.isFinite(after.logEvidence)) continue;
      expected += Math.exp(after.logEvidence - belief.logEvidence) * entropy(after.logPosterior);
    }
    expect(expected).toBeCloseTo(0.03834, 5);
  });

  it("has for minimal diagnoses exactly A1, M1, A2 with M2, M2 with M3", () => {
    const possible = entries.flatMap((_, set) => (chance(set) > 0 ? [set] : []));
    const minimal = possible.filter((set) => !possible.some((other) => other !== set && (other & set) === other));
    expect(minimal.sort((a, b) => a - b)).toEqual([M1, M2 | M3, A1, M2 | A2].sort((a, b) => a - b));
  });
});
