import { describe, expect, it } from "vitest";
import { momentsOf } from "../../../test/machines/moments-of.ts";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { draw, seeded } from "../chance/index.ts";
import { modesOf } from "../fault/index.ts";
import { DeadBench, openRunner } from "../run/index.ts";
import type { Fault } from "./atom.ts";
import type { Prediction, Probe, ProbeState } from "./prediction.ts";
import { Predictor } from "./predictor.ts";
import { probeOf } from "./probe.ts";

const machine = shippedMachine("tumble-dryer", {
  air: "vented",
  stages: "one",
  protectors: "self-resetting and one-shot",
  "motor-watch": "drum sensor on the board",
  control: "board with two heater poles",
});
const predictor = new Predictor(machine, modesOf(machine));
const METER = 1e7;

const dead = (more: Partial<ProbeState & { kind: "dead" }> = {}): ProbeState => ({
  kind: "dead",
  pulled: [],
  freed: [],
  hands: new Map(),
  ...more,
});
const ohms = (from: string, to: string, state: ProbeState = dead()): Probe =>
  probeOf({ quantity: "ohms", from, to, state });

function faultOf(id: string, severity = 0): Fault {
  const found = predictor.atoms.filter(({ mode }) => mode.id === id);
  if (found.length === 0) throw new Error(`no mode ${id}`);
  return [found[severity]];
}

function only(prediction: Prediction): { mean: number; sigma: number } {
  const [term] = prediction.terms;
  if (prediction.terms.length !== 1 || term.kind === "open") throw new Error(JSON.stringify(prediction));
  return term;
}

/** Mean and standard deviation of 2000 machines drawn from their ratings. */
function drawn(of: (parameters: readonly number[]) => number, label: string): { mean: number; sigma: number } {
  const random = seeded(label);
  const values = Array.from({ length: 2000 }, () => of(machine.parameters.map(({ rated }) => draw(rated, random))));
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return { mean, sigma: Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1)) };
}

describe("ohms with the plug out", () => {
  it("spread as 2000 machines drawn from their ratings do, to 8 %: the heater at its terminals", () => {
    const probe = ohms("heater.s1", "heater.common");
    const { mean, sigma } = momentsOf(predictor.shows(probe, METER, []));
    const bench = new DeadBench(machine);
    const node = (id: string): number => machine.points.find((point) => point.id === id)?.node ?? -1;
    const found = drawn(
      (parameters) =>
        bench
          .drawn(parameters)
          .prepare([], { pulled: [], freed: [], hands: new Map() })
          .ohms(node("heater.s1"), node("heater.common")),
      "heater",
    );
    expect(Math.abs(mean / found.mean - 1)).toBeLessThan(0.02);
    expect(Math.abs(sigma / found.sigma - 1)).toBeLessThan(0.08);
  });

  it("are open with the heater open, and the good ones with a fault elsewhere", () => {
    const probe = ohms("heater.s1", "heater.common");
    expect(predictor.shows(probe, METER, faultOf("heater/all open")).terms).toEqual([{ kind: "open", weight: 1 }]);
    expect(predictor.shows(probe, METER, faultOf("run-cap/open"))).toBe(predictor.shows(probe, METER, []));
  });

  it("show a leak of 1 kΩ from the heater's tab to its case where a good heater reads OL", () => {
    const probe = ohms("heater.s1", "heater.case");
    expect(predictor.shows(probe, METER, []).terms).toEqual([{ kind: "open", weight: 1 }]);
    const { terms } = predictor.shows(probe, METER, faultOf("heater/leaks to case"));
    const [, middle] = terms;
    expect(terms.every(({ kind }) => kind === "value")).toBe(true);
    expect(middle.kind === "value" ? middle.mean : 0).toBeCloseTo(1000, 0);
  });

  it("cover the decade about a burnt contact of 5 Ω: 3 terms of equal weight, no gap wider than 3 of their sigmas", () => {
    const severity = predictor.atoms
      .filter(({ mode }) => mode.id === "cut-out/contact burnt")
      .findIndex(({ mode, severity: s }) =>
        mode.severities[s].effects.some((effect) => effect.does === "series" && effect.ohms === 5),
      );
    const { terms } = predictor.shows(
      ohms("cut-out.a", "cut-out.b"),
      METER,
      faultOf("cut-out/contact burnt", severity),
    );
    const values = terms.flatMap((term) => (term.kind === "value" ? [term] : []));
    expect(values).toHaveLength(3);
    expect(values[1].mean).toBeGreaterThan(5);
    expect(values[1].mean).toBeLessThan(5.2);
    for (const [i, { mean, sigma }] of values.slice(1).entries()) {
      expect(mean - values[i].mean).toBeLessThan(3 * (sigma + values[i].sigma));
    }
  });

  it("of a pair of faults in series are open when one of them is", () => {
    const pair = [...faultOf("heater/all open"), ...faultOf("cut-out/contact burnt")];
    expect(predictor.shows(ohms("heater.s1", "heater.common"), METER, pair).terms[0].kind).toBe("open");
  });
});

describe("readings under power", () => {
  it("spread as 200 machines drawn from their ratings do, to 15 %: watts at the plug while heating", () => {
    const probe = probeOf({ quantity: "watts", state: { kind: "live", step: "heat" } });
    const { mean, sigma } = momentsOf(predictor.shows(probe, METER, []));
    const runner = openRunner(machine);
    const random = seeded("watts");
    const watts = Array.from({ length: 200 }, () => {
      const one = runner.drawn(machine.parameters.map(({ rated }) => draw(rated, random)));
      const [member] = one.healthy.pictures.get("heat@minutes")?.members ?? [];
      return one.restore([], member, "heat@minutes").plugWatts();
    });
    const found = watts.reduce((sum, x) => sum + x, 0) / watts.length;
    const spread = Math.sqrt(watts.reduce((sum, x) => sum + (x - found) ** 2, 0) / (watts.length - 1));
    expect(Math.abs(mean / found - 1)).toBeLessThan(0.02);
    expect(Math.abs(sigma / spread - 1)).toBeLessThan(0.15);
  }, 30_000);

  it("fall from over 2 kW to under 300 W with the heater open", () => {
    const probe = probeOf({ quantity: "watts", state: { kind: "live", step: "heat" } });
    expect(momentsOf(predictor.shows(probe, METER, [])).mean).toBeGreaterThan(2000);
    expect(only(predictor.shows(probe, METER, faultOf("heater/all open"))).mean).toBeLessThan(300);
  });

  it("show mains volts at the control's heater pins while it heats, less through 400 kΩ than through 10 MΩ with a broken return", () => {
    const probe = probeOf({ quantity: "volts", from: "X3.1", to: "X3.3", state: { kind: "live", step: "heat" } });
    expect(momentsOf(predictor.shows(probe, METER, [])).mean).toBeGreaterThan(215);
    const open = faultOf("heat-relay-n/contact1 open");
    const high = momentsOf(predictor.shows(probe, METER, open)).mean;
    const low = momentsOf(predictor.shows(probe, 4e5, open)).mean;
    expect(low).toBeLessThanOrEqual(high);
  });
});

describe("what a machine has", () => {
  it("is told for points, steps, causes and outputs", () => {
    expect(predictor.has(ohms("X3.1", "X3.3"))).toBe(true);
    expect(predictor.has(ohms("X3.1", "X99.1"))).toBe(false);
    expect(predictor.has(probeOf({ quantity: "watts", state: { kind: "live", step: "spin" } }))).toBe(false);
  });
});
