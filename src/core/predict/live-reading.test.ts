import { describe, expect, it } from "vitest";
import { momentsOf } from "../../../test/machines/moments-of.ts";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { draw, seeded } from "../chance/index.ts";
import { modesOf } from "../fault/index.ts";
import { openRunner, type Solved } from "../run/index.ts";
import type { Probe } from "./prediction.ts";
import { Predictor } from "./predictor.ts";
import { probeOf } from "./probe.ts";

// A machine with sources beside the mains: three of its motor module, a module's bus, a level sensor and two rails.
const machine = shippedMachine("washing-machine", { motor: "three phases and a module", level: "sealed sensor" });
const predictor = new Predictor(machine, modesOf(machine));
const runner = openRunner(machine);
const METER = 1e7;

const node = (id: string): number => {
  const point = machine.points.find((one) => one.id === id);
  if (point === undefined) throw new Error(`no point ${id}`);
  return point.node;
};

/** Mean and standard deviation of what 200 machines drawn from their ratings show in a step. */
function drawn(step: string, read: (solved: Solved) => number): { mean: number; sigma: number } {
  const random = seeded(step);
  const values = Array.from({ length: 200 }, () => {
    const one = runner.drawn(machine.parameters.map(({ rated }) => draw(rated, random)));
    const [member] = one.healthy.pictures.get(`${step}@minutes`)?.members ?? [];
    return read(one.restore([], member, `${step}@minutes`));
  });
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return { mean, sigma: Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1)) };
}

function foreseen(probe: Omit<Probe, "id">): { mean: number; sigma: number } {
  return momentsOf(predictor.shows(probeOf(probe), METER, []));
}

describe("where several sources stand, each spreads a reading by what it adds to it alone", () => {
  it("watts at the plug spread with the mains, not half with the motor module: as 200 drawn machines, to 15 %", () => {
    const { mean, sigma } = foreseen({ quantity: "watts", state: { kind: "live", step: "heat" } });
    const found = drawn("heat", (solved) => solved.plugWatts());
    expect(Math.abs(mean / found.mean - 1)).toBeLessThan(0.02);
    expect(Math.abs(sigma / found.sigma - 1)).toBeLessThan(0.15);
  }, 60_000);

  it("the 5 V of a sensor spread with their own rail, not with five others: as 200 drawn machines, to 15 %", () => {
    const [from, to] = ["X12.1", "X12.3"];
    const { mean, sigma } = foreseen({ quantity: "volts dc", from, to, state: { kind: "live", step: "wash" } });
    const found = drawn("wash", (solved) => solved.metered(node(from), node(to), METER, "=").volts);
    expect(Math.abs(mean / found.mean - 1)).toBeLessThan(0.02);
    expect(Math.abs(sigma / found.sigma - 1)).toBeLessThan(0.15);
  }, 60_000);
});
