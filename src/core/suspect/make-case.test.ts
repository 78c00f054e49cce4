import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import type { Meter } from "../meter/index.ts";
import type { Fault, Probe } from "../predict/index.ts";
import type { SignRule } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import { afterRemedy } from "./after-remedy.ts";
import type { Belief } from "./case.ts";
import { explain } from "./explain.ts";
import { liveHypotheses } from "./live.ts";
import { caseFrom } from "./open-case.ts";

const meter: Meter = {
  id: "test",
  says: "test meter",
  ranges: [
    { quantity: "ohms", top: 600, resolution: 0.1, shareOfReading: 0.009, counts: 2 },
    { quantity: "ohms", top: 4e7, resolution: 1e4, shareOfReading: 0.015, counts: 3 },
  ],
  inputOhms: 1e7,
  leadOhms: { lo: 0.1, hi: 0.3 },
  nulledOhms: 0.05,
  source: "invented",
};

function probe(id: string): Probe {
  return { id, quantity: "ohms", from: "a", to: "b", state: { kind: "dead", pulled: [], freed: [], hands: new Map() } };
}

function reading(id: string, value: number): Observation {
  const shown = Number.isFinite(value) ? ({ kind: "value", value } as const) : ({ kind: "over limit" } as const);
  return { kind: "reading", probe: probe(id), meter, leads: "nulled", shown };
}

const heats: SignRule = {
  id: "heat",
  ask: "Does it heat?",
  answers: ["yes", "no"],
  rule: { kind: "table", chance: new Map(), otherwise: 0 },
  told: { hit: 0.8, falseAlarm: 0.15 },
  heard: { hit: 0.85, falseAlarm: 0.1 },
  seen: { hit: 0.98, falseAlarm: 0.02 },
};

const sign = (answer: string, witness: "told" | "heard" | "seen"): Observation => ({
  kind: "sign",
  sign: "heat",
  answer,
  witness,
});

/** A chain of heater, cut-out and contact, 26 Ω in all; the contact comes and goes half the time it fails. */
function chain() {
  const modes = [
    plainMode(0, "heater", { share: 3 }),
    plainMode(1, "cut-out", { share: 2 }),
    plainMode(2, "contact", { share: 1, nowAndThen: 0.6 }),
    plainMode(3, "motor", { share: 2, seen: { hit: 0.6, falseAlarm: 0.05 } }),
  ];
  const has = (fault: Fault, name: string): boolean => fault.some(({ mode }) => mode.id.startsWith(`${name}/`));
  return caseFrom([
    {
      weight: 1,
      foresight: tableForesight({
        modes,
        signs: [heats],
        answers: (_, fault) => (["heater", "cut-out", "contact"].some((name) => has(fault, name)) ? [0, 1] : [1, 0]),
        shows: (id, fault) => {
          const parts = id === "whole" ? ["heater", "cut-out", "contact"] : [id];
          if (parts.some((part) => has(fault, part))) return { mean: Number.POSITIVE_INFINITY, sigma: 0 };
          return id === "contact" || id === "cut-out" ? { mean: 0.05, sigma: 0.01 } : { mean: 26, sigma: 0.5 };
        },
      }),
    },
  ]);
}

function odds(belief: Belief, mode: string): number {
  return belief.modes.find((one) => one.mode === mode)?.p ?? 0;
}

function total(belief: Belief): number {
  return belief.logPosterior.reduce((sum, log) => sum + Math.exp(log), 0);
}

describe("odds of possible faults", () => {
  it("start as the shares say, with 1 of 100 for nothing wrong and 3 of 100 for what the sheet does not know", () => {
    const belief = chain().update([]);
    expect(total(belief)).toBeCloseTo(1, 12);
    expect(belief.notOnThisSheet).toBeCloseTo(0.03, 9);
    expect(belief.nothingWrong).toBeCloseTo(0.01, 9);
    expect(belief.severalFaults).toBeCloseTo(0.05, 9);
    const singles = (1 - 0.09) / 8;
    expect(odds(belief, "heater/open")).toBeGreaterThan(3 * singles);
    expect(odds(belief, "heater/open")).toBeLessThan(3 * singles + 0.05);
  });

  it("sum to 1 and do not depend on the order of 5 readings, in 50 random orders", () => {
    const opened = chain();
    const values = fc.record({
      id: fc.constantFrom("whole", "heater", "cut-out", "contact"),
      value: fc.constantFrom(0, 0.1, 25.4, 26, 80, Number.POSITIVE_INFINITY),
    });
    const list = fc.array(values, { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(list, fc.integer({ min: 1, max: 4 }), (readings, turn) => {
        const seen = readings.map(({ id, value }) => reading(id, value));
        const one = opened.update(seen);
        const other = opened.update([...seen.slice(turn), ...seen.slice(0, turn)]);
        expect(total(one)).toBeCloseTo(1, 9);
        for (const [h, log] of one.logPosterior.entries()) {
          expect(Math.exp(log)).toBeCloseTo(Math.exp(other.logPosterior[h]), 9);
        }
      }),
      { numRuns: 50, seed: 7 },
    );
  });

  it("halve a chain: the whole open and the heater good leave the cut-out and the contact", () => {
    const belief = chain().update([
      sign("no", "told"),
      reading("whole", Number.POSITIVE_INFINITY),
      reading("heater", 26.1),
    ]);
    expect(odds(belief, "heater/open")).toBeLessThan(0.1);
    expect(odds(belief, "cut-out/open") + odds(belief, "contact/open")).toBeGreaterThan(0.85);
  });

  it("never fall to nothing by one good reading: a slip keeps 1 in 100 or so of an open heater", () => {
    const before = chain().update([sign("no", "seen")]);
    const after = chain().update([sign("no", "seen"), reading("heater", 26.1)]);
    const fall = odds(after, "heater/open") / odds(before, "heater/open");
    expect(fall).toBeLessThan(0.05);
    expect(fall).toBeGreaterThan(1e-4);
  });

  it("leave a contact that comes and goes more than 10 times the odds of a steady one after a good reading", () => {
    const belief = chain().update([sign("no", "seen"), reading("contact", 0.1)]);
    const opened = chain();
    const logs = new Map(opened.hypotheses.map(({ id }, h) => [id, belief.logPosterior[h]]));
    const steady = Math.exp(logs.get("0: contact/open#0") ?? 0);
    const mostly = Math.exp(logs.get("0: contact/open#0 on 0.5") ?? 0);
    expect(mostly).toBeGreaterThan(10 * steady);
  });

  it("count operations as a binomial: 19 good of 20 point to a fault on 1 in 10, 20 of 20 away from one on 5 in 10", () => {
    const opened = chain();
    const count = (good: number): Observation => ({ kind: "count", probe: probe("contact"), good, of: 20 });
    const share = (belief: Belief, failsOn: number): number =>
      opened.hypotheses.reduce(
        (sum, entry, h) =>
          sum + (entry.failsOn === failsOn && entry.kind === "single" ? Math.exp(belief.logPosterior[h]) : 0),
        0,
      );
    const prior = opened.update([]);
    const one = opened.update([count(19)]);
    const none = opened.update([count(20)]);
    expect(share(one, 0.1)).toBeGreaterThan(share(prior, 0.1));
    expect(share(none, 0.5)).toBeLessThan(0.05 * share(prior, 0.5));
    expect(share(none, 0.1)).toBeGreaterThan(0.05 * share(prior, 0.1));
  });

  it("take what was seen over what was told: told yes, seen no is the same as seen no", () => {
    const both = chain().update([sign("no", "seen"), sign("yes", "told")]);
    const seen = chain().update([sign("no", "seen")]);
    expect(odds(both, "heater/open")).toBeCloseTo(odds(seen, "heater/open"), 12);
  });

  it("raise a part that looks bad by its 0.6 against 0.05", () => {
    const belief = chain().update([{ kind: "look", at: "motor", found: "bad" }]);
    expect(odds(belief, "motor/open")).toBeGreaterThan(0.7);
  });
});

describe("a reading that nothing explains", () => {
  it("is kept and named: 200 Ω where all say 26 Ω or open", () => {
    const belief = chain().update([sign("yes", "seen"), reading("cut-out", 0.1), reading("whole", 200)]);
    expect(belief.worst?.observation).toBe(2);
    expect(belief.worst?.contradicts).toBe(true);
    expect(Number.isFinite(belief.logEvidence)).toBe(true);
  });

  it("is none where all agree", () => {
    const belief = chain().update([
      sign("no", "seen"),
      reading("whole", Number.POSITIVE_INFINITY),
      reading("heater", 26),
    ]);
    expect(belief.worst?.contradicts).toBe(false);
  });
});

describe("what a reading may turn out to show", () => {
  it("is parted into about 26 Ω and OL, chances summing to 1 for each of the living", () => {
    const opened = chain();
    const live = liveHypotheses(opened.update([sign("no", "told")]));
    const table = opened.outcomes(reading("whole", Number.POSITIVE_INFINITY), live);
    expect(table.outcomes.map(({ says }) => says)).toEqual(["25 Ω to 27 Ω", "OL"]);
    for (let i = 0; i < live.hypotheses.length; i++) {
      expect(table.chance.reduce((sum, chances) => sum + chances[i], 0)).toBeCloseTo(1, 6);
    }
  });

  it("agrees with the update: the mean over outcomes of the odds afterwards is the odds before, to 0.02", () => {
    const opened = chain();
    const told = [sign("no", "told")];
    const before = opened.update(told);
    const live = liveHypotheses(before, { mass: 1 });
    const table = opened.outcomes(reading("heater", Number.POSITIVE_INFINITY), live);
    let mean = 0;
    for (const [o, outcome] of table.outcomes.entries()) {
      const chance = live.weights.reduce((sum, weight, i) => sum + weight * table.chance[o][i], 0);
      mean += chance * odds(opened.update([...told, outcome.observation]), "heater/open");
    }
    expect(Math.abs(mean - odds(before, "heater/open"))).toBeLessThan(0.02);
  });

  it("gives the answers of a sign by their own names", () => {
    const opened = chain();
    const table = opened.outcomes(sign("", "told"), liveHypotheses(opened.update([])));
    expect(table.outcomes.map(({ id }) => id)).toEqual(["yes", "no"]);
  });
});

describe("a remedy", () => {
  it("that cures 9 in 10 moves the odds of an open heater to nothing wrong, and keeps the rest", () => {
    const opened = chain();
    const before = opened.update([sign("no", "seen"), reading("heater", Number.POSITIVE_INFINITY)]);
    const after = afterRemedy(opened, before, { modes: new Set(["heater/open"]), cured: 0.9 }).update([]);
    expect(odds(before, "heater/open")).toBeGreaterThan(0.9);
    expect(odds(after, "heater/open")).toBeLessThan(0.15);
    expect(after.nothingWrong).toBeGreaterThan(0.75);
    expect(total(after)).toBeCloseTo(1, 9);
  });

  it("of one fault of a pair leaves the other: still cold after the heater, the cut-out rises above 4 in 10", () => {
    const opened = chain();
    const before = opened.update([sign("no", "seen"), reading("heater", Number.POSITIVE_INFINITY)]);
    const mended = afterRemedy(opened, before, { modes: new Set(["heater/open"]), cured: 0.97 });
    const after = mended.update([
      sign("no", "seen"),
      reading("heater", 26),
      reading("whole", Number.POSITIVE_INFINITY),
    ]);
    expect(odds(after, "cut-out/open")).toBeGreaterThan(0.4);
  });
});

describe("predicted against seen", () => {
  it("speaks for the open heater by the reading that was OL, and against it by the one that was not", () => {
    const opened = chain();
    const seen = [sign("no", "told"), reading("heater", Number.POSITIVE_INFINITY)];
    const belief = opened.update(seen);
    const [first] = explain(opened, seen, belief);
    expect(first.mode).toBe("heater/open");
    expect(first.observations[1].predicted).toBe("OL");
    expect(first.observations[1].weight).toBeGreaterThan(2);
    const cutOut = explain(opened, seen, belief).find(({ mode }) => mode === "cut-out/open");
    expect(cutOut?.observations[1].weight).toBeLessThan(-1);
  });
});
